import type { Raster } from "./raster.ts";

/** An image read by rows, wherever its pixels are kept: values, order and orientation as in {@link Raster}. */
export interface RowSource {
  readonly width: number;
  readonly height: number;
  readonly bitDepth: 8 | 16;
  /**
   * Device values of `count` rows from row `first`, width * 3 a row. Only good until the next call, and never to be written to.
   * @throws {RangeError} The rows aren't all inside the image.
   */
  rows(first: number, count: number): Uint8Array | Uint16Array;
}

/** A raster in memory, by rows. */
export function rowSource(raster: Raster | RowSource): RowSource {
  if ("rows" in raster) return raster;
  const { width, height, bitDepth, data } = raster;
  return {
    width,
    height,
    bitDepth,
    rows(first, count) {
      checkRows(height, first, count);
      return data.subarray(3 * width * first, 3 * width * (first + count));
    },
  };
}

export function checkRows(height: number, first: number, count: number): void {
  if (!(first >= 0 && count >= 1 && first + count <= height))
    throw new RangeError(
      `Expected rows inside an image of ${height} rows, received ${count} from ${first}.`,
    );
}
