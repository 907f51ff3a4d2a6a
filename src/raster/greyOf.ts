import type { GreyImage } from "../vision/detectFeatures.ts";
import type { Raster } from "./raster.ts";

/** Shares of R, G and B in the grey of code values that registration works on. */
const SHARE_R = 0.3;
const SHARE_G = 0.55;
const SHARE_B = 0.15;

/** Code values of 16 bit a code value of 8 bit. */
const WORDS_A_BYTE = 257;

/** Grey of a raster at its full size: 0.30 R + 0.55 G + 0.15 B of code values, 8 bit, rounded. Not a lightness. */
export function greyOf({ width, height, bitDepth, data }: Raster): GreyImage {
  const scale = bitDepth === 8 ? 1 : 1 / WORDS_A_BYTE;
  const shareR = SHARE_R * scale;
  const shareG = SHARE_G * scale;
  const shareB = SHARE_B * scale;
  const pixels = new Uint8Array(width * height);
  for (let i = 0, at = 0; i < pixels.length; i++, at += 3)
    pixels[i] = shareR * data[at] + shareG * data[at + 1] + shareB * data[at + 2] + 0.5;
  return { pixels, width, height };
}
