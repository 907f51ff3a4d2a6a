import type { GreyImage } from "../vision/detectFeatures.ts";
import type { Raster } from "./raster.ts";
import { rowSource, type RowSource } from "./rowSource.ts";

/** Shares of R, G and B in the grey of code values that registration works on. */
const SHARE_R = 0.3;
const SHARE_G = 0.55;
const SHARE_B = 0.15;

/** Code values of 16 bit a code value of 8 bit. */
const WORDS_A_BYTE = 257;

/** Rows read at a time. */
const BAND_ROWS = 64;

/** Grey of a raster at its full size: 0.30 R + 0.55 G + 0.15 B of code values, 8 bit, rounded. Not a lightness. */
export function greyOf(raster: Raster | RowSource): GreyImage {
  const { width, height, bitDepth } = raster;
  const source = rowSource(raster);
  const scale = bitDepth === 8 ? 1 : 1 / WORDS_A_BYTE;
  const shareR = SHARE_R * scale;
  const shareG = SHARE_G * scale;
  const shareB = SHARE_B * scale;
  const pixels = new Uint8Array(width * height);
  for (let first = 0, i = 0; first < height; first += BAND_ROWS) {
    const data = source.rows(first, Math.min(BAND_ROWS, height - first));
    for (let at = 0; at < data.length; at += 3, i++)
      pixels[i] = shareR * data[at] + shareG * data[at + 1] + shareB * data[at + 2] + 0.5;
  }
  return { pixels, width, height };
}
