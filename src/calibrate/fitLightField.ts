import type { Triple } from "../numeric/triple.ts";
import { leastSquares } from "../numeric/leastSquares.ts";
import { MAD_TO_SD, mean, median } from "../numeric/statistics.ts";

/** A place that should be equally bright everywhere: a piece of the white border of a sheet, or of a shot of a blank sheet. */
export interface LightSample {
  /** Pixels of the frame. */
  readonly x: number;
  readonly y: number;
  /** Mean decoded linear R, G, B; > 0. */
  readonly linear: Triple;
}

/** How the light falls off over a frame: a quadratic in x and y for each channel, 1 on average over the samples. */
export interface LightField {
  /** Coordinates are taken relative to the centre, in units of the scale. */
  readonly centre: readonly [x: number, y: number];
  readonly scale: number;
  /** Terms 1, x, y, x^2, xy, y^2 of R, G and B. */
  readonly terms: readonly [readonly number[], readonly number[], readonly number[]];
  /** Robust spread of the samples about the field, as a share of the light: what the field leaves. */
  readonly residualShare: number;
  /** Independent terms that the places of the samples determine: 6, fewer where they lie along a line. */
  readonly rank: number;
}

/** Fewer samples do not carry six terms: four for each (common practice, no source). */
const FEWEST_SAMPLES = 24;
/** Stains and creases of the border are no light: samples further off than this many robust deviations pull less and less. */
const ROBUST_DEVIATIONS = 2;
const ROUNDS = 5;

/**
 * Fits the light field of a frame from places of one lightness around it. Never from the patches of a card: that made more photos worse
 * than better. Dividing by the field helps photos; scanners gain nothing below 1 % of unevenness.
 * @param samples At least 24, spread around the frame.
 * @throws {RangeError} Fewer samples, or values that are not positive.
 * @see Robust weights 1 / max(1, |e| / (2 sd)): Huber, Robust Statistics (1981).
 */
export function fitLightField(samples: readonly LightSample[]): LightField {
  if (samples.length < FEWEST_SAMPLES)
    throw new RangeError(
      `Expected at least ${FEWEST_SAMPLES} samples for a light field, received ${samples.length}.`,
    );
  if (!samples.every(({ linear }) => linear.every((value) => value > 0)))
    throw new RangeError("Expected positive linear values for a light field.");
  const centre = [mean(samples.map(({ x }) => x)), mean(samples.map(({ y }) => y))] as const;
  const scale = Math.max(
    ...samples.map(({ x, y }) => Math.max(Math.abs(x - centre[0]), Math.abs(y - centre[1]))),
    Number.MIN_VALUE,
  );
  const rows = samples.map(({ x, y }) => terms((x - centre[0]) / scale, (y - centre[1]) / scale));
  let rank = 0;
  const spreads: number[] = [];
  const channel = (c: number): readonly number[] => {
    const level = mean(samples.map(({ linear }) => linear[c]));
    const values = samples.map(({ linear }) => linear[c] / level);
    let weights: number[] | undefined;
    let fit = leastSquares(rows, values);
    let sd = 0;
    for (let round = 0; round < ROUNDS; round++) {
      sd = MAD_TO_SD * median(fit.residuals.map(Math.abs));
      if (sd === 0) break;
      weights = fit.residuals.map((e) => 1 / Math.max(1, Math.abs(e) / (ROBUST_DEVIATIONS * sd)));
      fit = leastSquares(rows, values, weights);
    }
    rank = fit.rank;
    spreads.push(sd);
    return fit.solution;
  };
  const fitted = [channel(0), channel(1), channel(2)] as const;
  return { centre, scale, terms: fitted, residualShare: Math.max(...spreads), rank };
}

/** The six terms at a place in the field's own coordinates. */
export function terms(x: number, y: number): readonly number[] {
  return [1, x, y, x * x, x * y, y * y];
}
