import { quickselect } from "d3-array";

/** Arithmetic mean; NaN of an empty list. */
export function mean(values: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i];
  return sum / values.length;
}

/** Unbiased variance by Welford's recurrence; NaN for fewer than two values. */
export function variance(values: ArrayLike<number>): number {
  let average = 0;
  let sumOfSquares = 0;
  for (let i = 0; i < values.length; i++) {
    const delta = values[i] - average;
    average += delta / (i + 1);
    sumOfSquares += delta * (values[i] - average);
  }
  return values.length < 2 ? NaN : sumOfSquares / (values.length - 1);
}

/** Unbiased standard deviation; NaN for fewer than two values. */
export function standardDeviation(values: ArrayLike<number>): number {
  return Math.sqrt(variance(values));
}

/** Quantiles by definition R-7 (linear between order statistics); NaN of an empty list. NaN values are left out. */
export function quantiles(values: ArrayLike<number>, ...shares: readonly number[]): number[] {
  const kept = new Float64Array(values.length);
  let length = 0;
  for (let i = 0; i < values.length; i++) if (!Number.isNaN(values[i])) kept[length++] = values[i];
  return shares.map((share) => {
    if (length === 0) return NaN;
    const place = (length - 1) * share;
    const below = Math.floor(place);
    // Only that order statistic comes to its place, with what is larger behind it.
    quickselect(kept, below, 0, length - 1);
    if (place === below) return kept[below];
    let above = Infinity;
    for (let i = below + 1; i < length; i++) above = Math.min(above, kept[i]);
    return kept[below] + (place - below) * (above - kept[below]);
  });
}

/** One quantile, see {@link quantiles}. */
export function quantile(values: ArrayLike<number>, share: number): number {
  return quantiles(values, share)[0];
}

/** Median, R-7. */
export function median(values: ArrayLike<number>): number {
  return quantile(values, 0.5);
}

/** Times the median of absolute deviations: the standard deviation of a normal distribution (1 over its quantile at 3/4). */
export const MAD_TO_SD = 1.4826;
