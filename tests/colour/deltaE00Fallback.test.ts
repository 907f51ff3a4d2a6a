import { afterEach, beforeEach, expect, test, vi } from "vitest";

/** The modules anew, on a machine whose engine says no to modules with vectors. */
beforeEach(() => {
  vi.resetModules();
  vi.spyOn(
    (globalThis as unknown as { WebAssembly: { validate: () => boolean } }).WebAssembly,
    "validate",
  ).mockReturnValue(false);
});
afterEach(() => {
  vi.restoreAllMocks();
});

const planes = (a: number, b: number, c: number) =>
  [Float32Array.of(a), Float32Array.of(b), Float32Array.of(c)] as const;

test("without vectors the difference comes from the tables", async () => {
  const { SHARED_KERNEL } = await import("../../src/colour/simd/sharedKernel.ts");
  const { deltaE00Kernel } = await import("../../src/colour/deltaE00Kernel.ts");
  const { ciede2000 } = await import("../../src/colour/ciede2000.ts");
  expect(SHARED_KERNEL).toBeNull();
  const [measured] = deltaE00Kernel(planes(50, 10, -40), planes(53, 12, -38), Uint8Array.of(1));
  expect(measured).toBeCloseTo(ciede2000([50, 10, -40], [53, 12, -38]), 3);
});

test("and CIELAB as well", async () => {
  const { lightToLab } = await import("../../src/colour/lightToLab.ts");
  const { WHITE_D50 } = await import("../../src/colour/whites.ts");
  const out = planes(NaN, NaN, NaN);
  const [X, Y, Z] = WHITE_D50;
  lightToLab(planes(1, 1, 1), [X, 0, 0, 0, Y, 0, 0, 0, Z], [0, 0, 0], out);
  expect(out).toEqual(planes(100, 0, 0));
});
