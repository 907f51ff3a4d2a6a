import { regularisedGamma } from "./regularisedGamma.ts";

/**
 * Probability that a chi-squared value with `degrees` degrees of freedom is at most `x`.
 * @param degrees > 0, need not be whole.
 */
export function chiSquaredCdf(x: number, degrees: number): number {
  return x <= 0 ? 0 : regularisedGamma(degrees / 2, x / 2);
}

/**
 * Quantile of the chi-squared distribution.
 * @param p Probability, 0 <= p < 1.
 * @param degrees Degrees of freedom, > 0, need not be whole.
 * @throws {RangeError} A value outside these ranges.
 */
export function chiSquaredQuantile(p: number, degrees: number): number {
  if (!(p >= 0 && p < 1) || !(degrees > 0) || !Number.isFinite(degrees))
    throw new RangeError(
      `Expected 0 <= p < 1 and degrees of freedom above 0, received ${p} and ${degrees}.`,
    );
  let low = 0;
  let high = degrees + 1;
  while (chiSquaredCdf(high, degrees) < p) high *= 2;
  // Bisection: 80 halvings reach the last bit from any start and need no derivative.
  for (let i = 0; i < BISECTIONS; i++) {
    const middle = (low + high) / 2;
    if (chiSquaredCdf(middle, degrees) < p) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

const BISECTIONS = 80;
