import { expect, test } from "vitest";
import { compileKernel, KERNELS } from "./compileKernel.ts";

test.each(KERNELS)("the committed module is what $source compiles to", async (kernel) => {
  const { KERNEL_BASE64 } = (await import(`../../${kernel.bytes}`)) as { KERNEL_BASE64: string };
  expect(await compileKernel(kernel)).toBe(KERNEL_BASE64);
});
