import type { GreyImage } from "../vision/detectFeatures.ts";
import type { Raster } from "./raster.ts";
import { rowSource, type RowSource } from "./rowSource.ts";

/** Shares of R, G and B in the grey of code values that registration works on. */
const SHARE_R = 0.3;
const SHARE_G = 0.55;
const SHARE_B = 0.15;

/** Code values of 16 bit a code value of 8 bit. */
const WORDS_A_BYTE = 257;

/** Rows read at a time, about. */
const BAND_ROWS = 64;

/**
 * Grey of a raster: 0.30 R + 0.55 G + 0.15 B of code values, 8 bit, rounded. Not a lightness.
 * @param block Side of the square blocks that are averaged, in whole pixels. Default 1: full size. Whole blocks only, from the
 *   top left: a rest at the right and the bottom is left off.
 */
export function greyOf(raster: Raster | RowSource, block: number = 1): GreyImage {
  const source = rowSource(raster);
  const width = Math.floor(raster.width / block);
  const height = Math.floor(raster.height / block);
  const scale = (raster.bitDepth === 8 ? 1 : 1 / WORDS_A_BYTE) / (block * block);
  const shareR = SHARE_R * scale;
  const shareG = SHARE_G * scale;
  const shareB = SHARE_B * scale;
  const pixels = new Uint8Array(width * height);
  const sums = new Float64Array(width);
  const bandRows = Math.ceil(BAND_ROWS / block);
  for (let first = 0; first < height; first += bandRows) {
    const last = Math.min(height, first + bandRows);
    const data = source.rows(first * block, (last - first) * block);
    for (let row = first; row < last; row++) {
      sums.fill(0.5);
      for (let y = (row - first) * block; y < (row - first + 1) * block; y++)
        for (let x = 0, at = 3 * y * raster.width; x < width; x++) {
          let sum = 0;
          for (const stop = at + 3 * block; at < stop; at += 3)
            sum += shareR * data[at] + shareG * data[at + 1] + shareB * data[at + 2];
          sums[x] += sum;
        }
      pixels.set(sums, row * width);
    }
  }
  return { pixels, width, height };
}
