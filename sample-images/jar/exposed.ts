import sharp from "sharp";
import type { Triple } from "../../src/numeric/triple.ts";
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

/** In the dark the noise of the root would grow without bounds. */
const SMALLEST_ROOT = 0.02;

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
  // Both tables run over the square root of the light: shot noise is even there, and the shadows have steps enough.
  const roots = Float64Array.from({ length: TABLE_STEPS + 1 }, (_, i) => i / TABLE_STEPS);
  const codes = Uint8Array.from(roots, (root) => Math.round(255 * tone(root * root)));
  const deviations = Float32Array.from(
    roots,
    (root) =>
      (noise * Math.sqrt(READ_NOISE ** 2 + SHOT_NOISE * root * root)) /
      (2 * Math.max(root, SMALLEST_ROOT)),
  );
  const normal = noiseStream(seed);
  const row = new Float32Array(3 * width);
  const data = new Uint8Array(linear.length);
  for (let y = 0; y < height; y++) {
    normal(row);
    const start = 3 * y * width;
    for (let c = 0; c < 3; c++) {
      const gain = white * whiteBalance[c];
      for (let i = c; i < row.length; i += 3) {
        const light = gain * linear[start + i];
        const root = light <= 0 ? 0 : light >= 1 ? 1 : Math.sqrt(light);
        const noisy = root + deviations[(TABLE_STEPS * root + 0.5) | 0] * row[i];
        const clipped = noisy <= 0 ? 0 : noisy >= 1 ? 1 : noisy;
        data[start + i] = codes[(TABLE_STEPS * clipped + 0.5) | 0];
      }
    }
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
