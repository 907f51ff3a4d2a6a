import { afterEach, describe, expect, test, vi } from "vitest";
import { greyOf } from "../../../src/raster/greyOf.ts";
import { ROW_KERNEL } from "../../../src/raster/kernel/rowKernel.ts";
import { linearPlanes } from "../../../src/raster/linearPlanes.ts";
import type { Raster } from "../../../src/raster/raster.ts";
import { srgbTables } from "../../../src/raster/srgbTables.ts";
import { noiseBytes, noiseWords } from "../bytes.ts";

/** A module anew, on a machine whose engine has no WebAssembly. */
async function withoutKernel<Module>(load: () => Promise<Module>): Promise<Module> {
  vi.resetModules();
  vi.spyOn(
    (globalThis as unknown as { WebAssembly: { validate: () => boolean } }).WebAssembly,
    "validate",
  ).mockReturnValue(false);
  return load();
}

afterEach(() => {
  vi.restoreAllMocks();
});

const [WIDTH, HEIGHT] = [203, 611];
const rasters: readonly Raster[] = [
  { width: WIDTH, height: HEIGHT, bitDepth: 8, data: new Uint8Array(noiseBytes(3 * WIDTH * HEIGHT, 51)) }, // prettier-ignore
  { width: WIDTH, height: HEIGHT, bitDepth: 16, data: noiseWords(3 * WIDTH * HEIGHT, 52) },
];

describe.each(rasters)("sums over rows, $bitDepth bit", (raster) => {
  test("means over whole pixels: the same bits with and without the kernel", async () => {
    expect(ROW_KERNEL).not.toBeNull();
    const plain = await withoutKernel(() => import("../../../src/raster/linearPlanes.ts"));
    for (const [stepX, stepY] of [
      [1, 1],
      [4, 4],
      [3, 5],
      [203, 611],
    ])
      expect(linearPlanes(raster, srgbTables(raster.bitDepth), stepX, stepY)).toEqual(
        plain.linearPlanes(raster, srgbTables(raster.bitDepth), stepX, stepY),
      );
  });

  test("grey over blocks: the same codes with and without it", async () => {
    const plain = await withoutKernel(() => import("../../../src/raster/greyOf.ts"));
    for (const block of [1, 2, 3, 7])
      expect(greyOf(raster, block)).toEqual(plain.greyOf(raster, block));
  });

  test("grey over blocks is the mean of their grey, in whole codes", () => {
    const full = greyOf(raster);
    const { pixels, width, height } = greyOf(raster, 2);
    expect([width, height]).toEqual([101, 305]);
    for (let y = 0; y < height; y++)
      for (let x = 0; x < width; x++) {
        const at = 2 * y * WIDTH + 2 * x;
        const four = [at, at + 1, at + WIDTH, at + WIDTH + 1].map((i) => full.pixels[i]);
        // Four roundings by up to half a code, and one of the mean.
        const mean = four.reduce((sum, code) => sum + code, 0) / 4;
        expect(Math.abs(pixels[y * width + x] - mean)).toBeLessThanOrEqual(1);
      }
  });
});
