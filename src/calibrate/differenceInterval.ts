import { noncentralChiSquaredCdf } from "../numeric/noncentralChiSquared.ts";
import type { ScaledChiSquared } from "./covarianceRadius.ts";

export interface Interval {
  readonly low: number;
  readonly high: number;
}

/** Standard normal quantile of 0.975. */
const Z = 1.959964;
const TAIL = 0.025;
const BISECTIONS = 50;
/** From this many standard deviations on a distance is normal to within 1 % of its standard deviation. */
const FAR = 12;

/**
 * 95 % confidence interval of a true dE00 from a measured one. Measured distances cannot be negative and are too large on average, so the
 * interval comes from the distribution of distances: all true values under which the measured one is no surprise in either tail.
 * @param measured dE00, >= 0.
 * @param spread Distribution of the squared measured value where nothing changed.
 * @returns `low` is 0 whenever nothing at all could have given the measured value; `high` is never below what is measured.
 * @see Inversion of the noncentral chi-squared distribution, whose noncentrality is the squared true distance.
 */
export function differenceInterval(measured: number, { g, h }: ScaledChiSquared): Interval {
  if (!(g > 0)) return { low: measured, high: measured };
  const sd = Math.sqrt(g);
  const x = measured / sd;
  // A distance of mean t in h dimensions is about normal around sqrt(t^2 + h - 1) when far from zero.
  if (x > FAR) {
    const bias = (h - 1) / (2 * x);
    return { low: sd * (x - bias - Z), high: sd * (x - bias + Z) };
  }
  const solve = (p: number): number => {
    if (noncentralChiSquaredCdf(x * x, h, 0) <= p) return 0;
    let low = 0;
    let high = x + Z + 2;
    for (let i = 0; i < BISECTIONS; i++) {
      const middle = (low + high) / 2;
      if (noncentralChiSquaredCdf(x * x, h, middle * middle) > p) low = middle;
      else high = middle;
    }
    return (low + high) / 2;
  };
  return { low: sd * solve(1 - TAIL), high: Math.max(measured, sd * solve(TAIL)) };
}
