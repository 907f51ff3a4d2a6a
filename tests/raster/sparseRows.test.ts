import { describe, expect, test } from "vitest";
import type { Raster } from "../../src/raster/raster.ts";
import { rgbAt } from "../../src/raster/rgbAt.ts";
import { sparseRows } from "../../src/raster/sparseRows.ts";

/** Each pixel holds its row in R, and its column in G. */
function rowsAndColumns(width: number, height: number, bitDepth: 8 | 16): Raster {
  const data =
    bitDepth === 8 ? new Uint8Array(3 * width * height) : new Uint16Array(3 * width * height);
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++, i += 3) data.set([y, x, 7], i);
  return { width, height, bitDepth, data };
}

describe("some of the rows", () => {
  test.each([8, 16] as const)("are the middle ones, %i bit", (bitDepth) => {
    const sparse = sparseRows(rowsAndColumns(4, 23, bitDepth), 5);
    expect(sparse).toMatchObject({ width: 4, height: 4, bitDepth });
    const rows = sparse.rows(1, 3);
    expect(rows).toHaveLength(3 * 4 * 3);
    // Row r of the result is row (r + 0.5) 5 - 0.5 of the source.
    for (let i = 0; i < rows.length; i += 3)
      expect(rows.slice(i, i + 3)).toEqual(
        (bitDepth === 8 ? Uint8Array : Uint16Array).from([
          5 * (1 + Math.floor(i / 12)) + 2,
          (i / 3) % 4,
          7,
        ]),
      );
  });

  test("an even number, or more than there are, is refused; one is the source itself", () => {
    const raster = rowsAndColumns(4, 6, 8);
    for (const every of [0, 2, 7, NaN]) expect(() => sparseRows(raster, every)).toThrow(RangeError);
    expect(sparseRows(raster, 1).rows(0, 6)).toEqual(raster.data);
    expect(() => sparseRows(raster, 3).rows(1, 2)).toThrow(RangeError);
  });

  test("a large picture reduced for finding the card keeps each cell in its place", () => {
    // 21 megapixels whose codes grow along both sides.
    const [width, height] = [5250, 4000];
    const data = new Uint8Array(3 * width * height);
    for (let y = 0, i = 0; y < height; y++)
      for (let x = 0; x < width; x++, i += 3) {
        data[i] = x / 21;
        data[i + 1] = y / 16;
      }
    const small = rgbAt({ width, height, bitDepth: 8, data }, 500);
    expect(small).toMatchObject({ width: 500, height: 380, step: 10.5 });
    for (let row = 0; row < small.height; row += 9)
      for (let column = 0; column < small.width; column += 9) {
        const at = 3 * (row * small.width + column);
        // Codes are cut to whole ones (half a code down on average), then the mean is rounded.
        const [x, y] = [(column + 0.5) * 10.5 - 0.5, (row + 0.5) * 10.5 - 0.5];
        expect(Math.abs(small.pixels[at] - (x / 21 - 0.5))).toBeLessThan(1);
        expect(Math.abs(small.pixels[at + 1] - (y / 16 - 0.5))).toBeLessThan(1);
      }
  });
});
