import type { Raster } from "./raster.ts";
import { rowSource, type RowSource } from "./rowSource.ts";

/** A rectangle of whole pixels: columns x to x + width - 1, rows y to y + height - 1. */
export interface PixelBox {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/**
 * A copy of a rectangle of a raster, device values unchanged.
 * @throws {RangeError} The box isn't whole, is empty, or leaves the frame.
 */
export function codeBox(raster: Raster | RowSource, { x, y, width, height }: PixelBox): Raster {
  const whole = [x, y, width, height].every(Number.isInteger);
  const inside = x >= 0 && y >= 0 && x + width <= raster.width && y + height <= raster.height;
  if (!(whole && inside && width >= 1 && height >= 1))
    throw new RangeError(
      `Expected a box inside ${raster.width} x ${raster.height} pixels, received ${width} x ${height} at (${x}, ${y}).`,
    );
  const rowLength = 3 * width;
  const data =
    raster.bitDepth === 8
      ? new Uint8Array(rowLength * height)
      : new Uint16Array(rowLength * height);
  const rows = rowSource(raster).rows(y, height);
  for (let row = 0; row < height; row++) {
    const from = 3 * (row * raster.width + x);
    data.set(rows.subarray(from, from + rowLength), row * rowLength);
  }
  return { width, height, bitDepth: raster.bitDepth, data };
}
