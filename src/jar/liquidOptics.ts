import type { Triple } from "../colour/triple.ts";

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

/**
 * Turbidity index per cm: the gain of veil, corrected for what the liquid itself swallows on the way in and out (single
 * back-scatter in an absorbing liquid).
 * @param veilGain Veil of the sample less that of the blank, in units of the white stripe beside the jar.
 * @param wide Decadic attenuation per cm.
 */
export function turbidityIndex(veilGain: number, wide: number, pathCm: number): number {
  const k = 2 * Math.LN10 * wide;
  // expm1 keeps its digits where k is small; its limit there is 1 / path.
  const perPath = k === 0 ? 1 / pathCm : k / -Math.expm1(-k * pathCm);
  return (veilGain * perPath) / 2;
}

/** Relative part of the uncertainty of an absorbance: tone curve, and spread over cameras. */
const TONE_SHARE = 0.02;
const CAMERA_SHARE = 0.03;

/** Least uncertainty of an absorbance per cm. */
const FLOOR = 0.0005;

/**
 * Standard uncertainty of an absorbance, per cm: tone, camera, kind of particle and a floor, in quadrature.
 * @param reading From the photo itself (scatter over columns), per cm; replaces the floor where it is larger.
 */
export function absorbanceSigma(absorbance: number, beta: number, reading = 0): number {
  return Math.hypot(
    TONE_SHARE * absorbance,
    CAMERA_SHARE * absorbance,
    KAPPA_UNCERTAINTY * KAPPA * beta,
    Math.max(FLOOR, reading),
  );
}

/** A clear dye alone read up to this; over 5 to 80 FNU the index per FNU kept within this share. */
const INDEX_FLOOR = 0.0003;
const INDEX_SHARE = 0.05;

/** Standard uncertainty of a turbidity index, per cm, for particles of one kind. */
export function turbidityIndexSigma(beta: number): number {
  return Math.hypot(INDEX_FLOOR, INDEX_SHARE * beta);
}

/** A value for each of three channels. */
export function triple(value: (channel: 0 | 1 | 2) => number): Triple {
  return [value(0), value(1), value(2)];
}
