import sharp from "sharp";
import type { Triple } from "../../src/colour/triple.ts";
import type { Raster } from "../../src/raster/raster.ts";
import { noiseStream } from "./noise.ts";
import { srgb, type ToneCurve } from "./toneCurves.ts";

/** How the light that reaches the sensor becomes codes. */
export interface Exposure {
  /** Linear value of a perfect white in even light. Default 0.82. */
  readonly white?: number;
  /** Gain of each channel on top, as a white balance that is a little off. Default 1, 1, 1. */
  readonly whiteBalance?: Triple;
  readonly tone?: ToneCurve;
  /** Scales the noise of sensor and amplifier; 0 for none. Default 1. */
  readonly noise?: number;
  readonly seed?: number;
}

const WHITE = 0.82;

/** Variance of a linear value x: read noise squared plus shot noise times x; about one code in the lights. */
const READ_NOISE = 0.0012;
const SHOT_NOISE = 8e-5;

const TABLE_STEPS = 8192;

/**
 * Codes of a linear picture (1 = perfect white in even light), 8 bit.
 * @param linear Interleaved R G B.
 */
export function exposed(
  linear: Float32Array,
  width: number,
  height: number,
  exposure: Exposure = {},
): Raster {
  const { white = WHITE, whiteBalance = [1, 1, 1], tone = srgb, noise = 1, seed = 1 } = exposure;
  // Over the square root of the light, so that the shadows have steps enough.
  const table = Float32Array.from(
    { length: TABLE_STEPS + 1 },
    (_, i) => 255 * tone((i / TABLE_STEPS) ** 2),
  );
  const normal = noiseStream(seed);
  const gains = whiteBalance.map((gain) => white * gain);
  const data = new Uint8Array(linear.length);
  for (let i = 0; i < linear.length; i++) {
    let x = linear[i] * gains[i % 3];
    if (noise > 0) x += noise * Math.sqrt(READ_NOISE ** 2 + SHOT_NOISE * Math.max(0, x)) * normal();
    const clipped = x <= 0 ? 0 : x >= 1 ? 1 : x;
    data[i] = Math.round(table[Math.round(TABLE_STEPS * Math.sqrt(clipped))]);
  }
  return { width, height, bitDepth: 8, data };
}

/** The same picture after it was written as JPEG of that quality and read again. */
export async function throughJpeg(raster: Raster, quality: number): Promise<Raster> {
  const file = await jpegOf(raster, quality);
  const data = await sharp(file).removeAlpha().raw().toBuffer();
  return { ...raster, data: new Uint8Array(data) };
}

export function jpegOf(raster: Raster, quality: number): Promise<Buffer> {
  const { width, height, data } = raster;
  return sharp(data, { raw: { width, height, channels: 3 } })
    .jpeg({ quality })
    .toBuffer();
}
