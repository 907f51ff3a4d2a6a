import { quantileSorted } from "d3-array";

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

/** Quantile by definition R-7 (linear between order statistics); NaN of an empty list. NaN values are left out. */
export function quantile(values: ArrayLike<number>, p: number): number {
  const sorted = Array.from(values)
    .filter((value) => !Number.isNaN(value))
    .sort((a, b) => a - b);
  return quantileSorted(sorted, p) ?? NaN;
}

/** Median, R-7. */
export function median(values: ArrayLike<number>): number {
  return quantile(values, 0.5);
}
