import { turbidityIndex } from "../turbidity/turbidityIndex.ts";

/** What one photo says of one channel (or mixed band), all divided by the white stripe beside the jar. */
export interface StripeLight {
  /** Contrast of the wide stripes through the jar, and of the same stripes seen past it. */
  readonly wide: number;
  readonly wideBeside: number;
  /** The same for the narrow stripes (past the jar: the wide ones at that height); NaN where there are none. */
  readonly narrow: number;
  readonly narrowBeside: number;
  /** Light on the black stripes that is not theirs: what the liquid scatters back, and glare. */
  readonly veil: number;
}

export interface LiquidOptics {
  /** Decadic attenuation per cm. NaN where the contrast is gone. */
  readonly wide: number;
  readonly narrow: number;
  /** Turbidity index, per cm. */
  readonly beta: number;
  /** Decadic absorbance per cm: the wide attenuation less the particles' part. */
  readonly absorbance: number;
}

/** Attenuation of wide stripes by particles per turbidity index; measured 1.85 for formazin, 1.25 for carbonate haze. */
export const KAPPA = 1.55;

/** Relative standard uncertainty of KAPPA over kinds of particle. */
export const KAPPA_UNCERTAINTY = 0.25;

/**
 * Attenuation, turbidity index and absorbance of a liquid from the stripes seen through it, against the blank in the same jar.
 * Veil and glare cancel in the contrasts, glass and lamp in the blank, exposure and white balance in the stripes beside the jar.
 * @param sample The spent bath.
 * @param blank The fresh bath.
 * @param pathCm Path through the liquid, once.
 * @param passes How often the light of the stripes crosses it.
 */
export function liquidOptics(
  sample: StripeLight,
  blank: StripeLight,
  pathCm: number,
  passes: number,
): LiquidOptics {
  const attenuation = (s: number, sBeside: number, b: number, bBeside: number): number =>
    -Math.log10(s / sBeside / (b / bBeside)) / (passes * pathCm);
  const wide = attenuation(sample.wide, sample.wideBeside, blank.wide, blank.wideBeside);
  const narrow = attenuation(sample.narrow, sample.narrowBeside, blank.narrow, blank.narrowBeside);
  const beta = turbidityIndex(sample.veil - blank.veil, wide, pathCm);
  return { wide, narrow, beta, absorbance: wide - KAPPA * beta };
}
