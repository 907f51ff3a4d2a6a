import type { Box } from "../../grid/box.ts";
import type { Raster } from "../../raster/raster.ts";

/** A rectangle of a photo in linear light. */
export interface LightBox {
  /** Whole pixels: the left column and the top row in the photo. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  /** Row-major, one plane a channel. */
  readonly light: readonly [Float32Array, Float32Array, Float32Array];
  /** The photo, for the codes behind the light. */
  readonly raster: Raster;
}

/** Linear light of every code of a raster. */
export type LightTable = Float32Array;

/**
 * The part of a photo inside a box, in linear light. The box is cut to whole pixels inwards.
 * @returns null where less than 2 x 2 pixels lie inside the photo, or the box leaves it.
 */
export function lightBox(raster: Raster, box: Box, table: LightTable): LightBox | null {
  const x = Math.ceil(box[0]);
  const y = Math.ceil(box[1]);
  const width = Math.floor(box[0] + box[2]) - x;
  const height = Math.floor(box[1] + box[3]) - y;
  if (x < 0 || y < 0 || x + width > raster.width || y + height > raster.height) return null;
  if (width < 2 || height < 2) return null;
  const size = width * height;
  const plane = (): Float32Array => new Float32Array(size);
  const light = [plane(), plane(), plane()] as const;
  for (let row = 0; row < height; row++) {
    let at = 3 * ((y + row) * raster.width + x);
    for (let i = row * width; i < (row + 1) * width; i++)
      for (let c = 0; c < 3; c++) light[c][i] = table[raster.data[at++]];
  }
  return { x, y, width, height, light, raster };
}
