import type { Triple } from "../numeric/triple.ts";
import { chiSquaredQuantile } from "../numeric/chiSquared.ts";
import type { Matrix3 } from "../numeric/matrix3.ts";
import { multiply3, transpose3 } from "../numeric/matrix3.ts";
import { differenceCoordinates } from "./differenceCoordinates.ts";

/** A squared length approximated as g times a chi-squared value with h degrees of freedom. */
export interface ScaledChiSquared {
  readonly g: number;
  readonly h: number;
}

/**
 * What the squared dE00 of a random Lab difference with this covariance and mean zero is distributed like: with the eigenvalues l of the
 * covariance in CIEDE2000 coordinates, g = sum(l^2) / sum(l) and h = sum(l)^2 / sum(l^2).
 * @param covariance Of a difference in L*, a*, b*; symmetric.
 * @param lab Colour at which the difference is taken.
 * @returns g = 0 where the covariance is zero.
 * @see Satterthwaite, Biometrics Bulletin 2(6), 110-114 (1946), for sums of chi-squared values.
 */
export function scaledChiSquared(covariance: Matrix3, lab: Triple): ScaledChiSquared {
  const W = differenceCoordinates(lab);
  const A = multiply3(W, multiply3(covariance, transpose3(W)));
  // Sum of the eigenvalues and of their squares, without finding them.
  const sum = A[0] + A[4] + A[8];
  const squares = A.reduce((total, value) => total + value * value, 0);
  return sum > 0 ? { g: squares / sum, h: sum ** 2 / squares } : { g: 0, h: 1 };
}

/**
 * The dE00 that a random Lab difference with this covariance and mean zero stays below with the given probability.
 * @param level Probability, 0..1.
 */
export function covarianceRadius(covariance: Matrix3, lab: Triple, level: number): number {
  const { g, h } = scaledChiSquared(covariance, lab);
  return g === 0 ? 0 : Math.sqrt(g * chiSquaredQuantile(level, h));
}
