import { expect, test } from "vitest";
import { KERNEL_BASE64 } from "../../src/colour/simd/kernelBytes.ts";
import { compileKernel } from "../support/compileKernel.ts";

test("the committed module is what its source compiles to", async () => {
  expect(await compileKernel()).toBe(KERNEL_BASE64);
});
