import type { Triple } from "../../src/numeric/triple.ts";
import { reflectanceToXyzD50 } from "../../src/colour/spectrum.ts";
import { encodeSrgb } from "../../src/colour/srgb.ts";
import { seededRandom } from "../../src/numeric/random.ts";
import { WAVELENGTHS_NM } from "./sheetSpectra.ts";
import { hashLattice } from "./valueNoise.ts";

/** Turns a reflectance at 400 to 700 nm by 10 into three numbers proportional to light. */
export type Observer = (reflectance: ArrayLike<number>) => Triple;

/** The scanner's filters: middle in nm of red, green and blue, and their common standard deviation. */
const FILTER_NM = [612, 540, 455] as const;
const FILTER_WIDTH_NM = 27;

/** Linear R G B of the scanner, white balanced: the perfect diffuser gives 1 1 1. */
export const scannerObserver: Observer = (reflectance) =>
  FILTER_NM.map((middle) => {
    let sum = 0;
    let total = 0;
    WAVELENGTHS_NM.forEach((nm, i) => {
      const weight = Math.exp(-(((nm - middle) / FILTER_WIDTH_NM) ** 2) / 2);
      sum += weight * reflectance[i];
      total += weight;
    });
    return sum / total;
  }) as unknown as Triple;

/** The observer of CIE 15 under D50: what the truth is measured with. */
export const standardObserver: Observer = reflectanceToXyzD50;

/** What a scanner does to light on its way to a code value. */
export interface Scanner {
  /** Drift s against the ideal scanner, as standard deviations: gain s, gain of each channel s/2, exponent s; such as 0.02. */
  readonly drift: number;
  /** Largest change of the lamp's light from one edge of the frame to the other, as a share. */
  readonly tilt: number;
  /** Stray light, as a share of white. */
  readonly black: number;
  /** Uneven lighting of the bed, largest share. It belongs to the scanner, not to the day. */
  readonly unevenness: number;
  /** Standard deviation in 8-bit code values. */
  readonly noise: number;
  /** Weight of each neighbour in the blur along rows and columns, 0 for none. */
  readonly blur: number;
  readonly bitDepth: 8 | 16;
  /** Of the bed's unevenness. */
  readonly scannerSeed: number;
  /** Of the day's drift and of the noise. */
  readonly seed: number;
}

/** One frame's drift, drawn from the scanner's seeds. */
interface Draw {
  readonly gain: Triple;
  readonly exponent: number;
  readonly tiltX: number;
  readonly tiltY: number;
  readonly phaseX: number;
  readonly phaseY: number;
}

function draw(scanner: Scanner): Draw {
  const bed = seededRandom(scanner.scannerSeed);
  const random = seededRandom(scanner.seed);
  const s = scanner.drift;
  const bounded = (): number => Math.max(-2, Math.min(2, random.normal()));
  const common = 1 + s * bounded();
  const channel = (): number => common * (1 + (s / 2) * bounded());
  const gain: Triple = [channel(), channel(), channel()];
  const exponent = 1 + s * bounded();
  const direction = 2 * Math.PI * random.uniform();
  const tilt = scanner.tilt * (2 * random.uniform() - 1);
  return {
    gain,
    exponent,
    tiltX: tilt * Math.cos(direction),
    tiltY: tilt * Math.sin(direction),
    phaseX: 2 * Math.PI * bed.uniform(),
    phaseY: 2 * Math.PI * bed.uniform(),
  };
}

/** Standard normal deviates, looked up by hash: reproducible at any pixel without a sequence. */
const NORMALS: Float32Array = (() => {
  const random = seededRandom(20);
  return Float32Array.from({ length: 1 << 16 }, () => random.normal());
})();

/** Exposure leaves headroom: the perfect diffuser lands at 0.94, so that a drift of a few percent clips nothing. */
const EXPOSURE = 0.94;
const CODE_STEPS = 4096;

/**
 * Encodes rows of linear light as a scanner would.
 * @param width, height Size of the frame in pixels.
 * @returns A function that writes row `y` (interleaved linear R G B, 1 = white) to `out` at its place in the frame.
 */
export function encoder(
  scanner: Scanner,
  width: number,
  height: number,
): (row: Float32Array, y: number, out: Uint8Array | Uint16Array) => void {
  const { gain, exponent, tiltX, tiltY, phaseX, phaseY } = draw(scanner);
  const top = scanner.bitDepth === 8 ? 255 : 65535;
  const noise = (scanner.noise * top) / 255;
  const curve = Float64Array.from({ length: CODE_STEPS + 2 }, (_, i) => {
    // Square-root spacing keeps the table fine in the shadows.
    const linear = (1.3 * i * i) / (CODE_STEPS * CODE_STEPS);
    return top * encodeSrgb(Math.min(1, linear) ** exponent);
  });
  const toIndex = CODE_STEPS / Math.sqrt(1.3);
  return (row, y, out) => {
    const v = y / height - 0.5;
    const waveY = scanner.unevenness * Math.sin(4.3 * v + phaseY);
    for (let x = 0; x < width; x++) {
      const u = x / width - 0.5;
      const light =
        (1 + tiltX * u + tiltY * v) *
        (1 + 0.5 * (scanner.unevenness * Math.sin(5.1 * u + phaseX) + waveY));
      const h = noise === 0 ? 0 : hashLattice(scanner.seed, x, y);
      const h2 = noise === 0 ? 0 : Math.imul(h ^ 0x5bd1e995, 0x2c1b3c6d) >>> 0;
      for (let c = 0; c < 3; c++) {
        const linear =
          scanner.black + (EXPOSURE - scanner.black) * gain[c] * light * row[3 * x + c];
        const at = Math.min(CODE_STEPS, toIndex * Math.sqrt(Math.max(0, linear)));
        const i = Math.floor(at);
        let code = curve[i] + (at - i) * (curve[i + 1] - curve[i]);
        if (noise > 0) {
          const index = c === 0 ? h & 0xffff : c === 1 ? h >>> 16 : h2 >>> 16;
          code += noise * NORMALS[index];
        }
        out[3 * (y * width + x) + c] = Math.max(0, Math.min(top, Math.round(code)));
      }
    }
  };
}
