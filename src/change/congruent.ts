import { differenceCoordinates } from "../calibrate/differenceCoordinates.ts";
import { invert3, type Matrix3, multiply3, transpose3 } from "../numeric/matrix3.ts";
import type { Triple } from "../numeric/triple.ts";

/** Step in Lab for derivatives of models that are smooth over several units. */
const STEP = 0.5;

/** The covariance of J x for x of covariance S: J S J'. */
export function congruent(J: Matrix3, S: Matrix3): Matrix3 {
  return multiply3(J, multiply3(S, transpose3(J)));
}

/** Derivatives of a function of a colour by L*, a* and b*. */
function gradient(f: (lab: Triple) => number, [L, a, b]: Triple): Triple {
  return [
    (f([L + STEP, a, b]) - f([L - STEP, a, b])) / (2 * STEP),
    (f([L, a + STEP, b]) - f([L, a - STEP, b])) / (2 * STEP),
    (f([L, a, b + STEP]) - f([L, a, b - STEP])) / (2 * STEP),
  ];
}

/** Variance of a function of a colour that has the covariance S. */
export function congruentScalar(f: (lab: Triple) => number, at: Triple, S: Matrix3): number {
  const [x, y, z] = gradient(f, at);
  return (
    x * x * S[0] + y * y * S[4] + z * z * S[8] + 2 * (x * y * S[1] + x * z * S[2] + y * z * S[5])
  );
}

/** Colours half a unit to either side of a colour along L*, a* and b*: up, down, up, down, up, down. */
export function besides([L, a, b]: Triple): readonly Triple[] {
  return [
    [L + STEP, a, b],
    [L - STEP, a, b],
    [L, a + STEP, b],
    [L, a - STEP, b],
    [L, a, b + STEP],
    [L, a, b - STEP],
  ];
}

/** Derivative of a colour by another colour, from its values at {@link besides}. */
export function jacobian(at: readonly Triple[]): Matrix3 {
  const d = (row: number, column: number): number =>
    (at[2 * column][row] - at[2 * column + 1][row]) / (2 * STEP);
  // prettier-ignore
  return [
    d(0, 0), d(0, 1), d(0, 2),
    d(1, 0), d(1, 1), d(1, 2),
    d(2, 0), d(2, 1), d(2, 2),
  ];
}

/** Sum of two covariances. */
export function sum3(A: Matrix3, B: Matrix3): Matrix3 {
  // prettier-ignore
  return [
    A[0] + B[0], A[1] + B[1], A[2] + B[2],
    A[3] + B[3], A[4] + B[4], A[5] + B[5],
    A[6] + B[6], A[7] + B[7], A[8] + B[8],
  ];
}

/** Covariance in Lab of a standard deviation that is the same in each CIEDE2000 coordinate. */
export function evenCovariance(sd: number, lab: Triple): Matrix3 {
  const variance = sd * sd;
  // prettier-ignore
  return congruent(invert3(differenceCoordinates(lab)), [
    variance, 0, 0,
    0, variance, 0,
    0, 0, variance,
  ]);
}
