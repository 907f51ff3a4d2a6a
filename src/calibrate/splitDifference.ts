import type { Triple } from "../numeric/triple.ts";
import type { Matrix3 } from "../numeric/matrix3.ts";
import { multiply3Vector } from "../numeric/matrix3.ts";

/** A figure with its 95 % interval. */
export interface Figure {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

export interface SplitDifference {
  readonly deltaL: Figure;
  /** After minus before of C*ab. */
  readonly deltaC: Figure;
  /** CIELAB hue difference, 2 sqrt(C1 C2) sin(dh / 2): positive counter-clockwise (red towards yellow). */
  readonly deltaH: Figure;
  readonly deltaA: Figure;
  readonly deltaB: Figure;
}

/** Standard normal quantile of 0.975. */
const Z = 1.959964;

/**
 * Splits a Lab difference into lightness, chroma and hue (and a*, b*), each with its 95 % interval.
 * @param covariance Of the difference in L*, a*, b*.
 * @see CIE 15, CIELAB differences.
 */
export function splitDifference(
  before: Triple,
  after: Triple,
  covariance: Matrix3,
): SplitDifference {
  const C1 = Math.hypot(before[1], before[2]);
  const C2 = Math.hypot(after[1], after[2]);
  const dh = Math.atan2(after[2], after[1]) - Math.atan2(before[2], before[1]);
  const turn = dh > Math.PI ? dh - 2 * Math.PI : dh < -Math.PI ? dh + 2 * Math.PI : dh;
  const middle = Math.atan2(before[2] + after[2], before[1] + after[1]);
  const chroma: Triple = [0, Math.cos(middle), Math.sin(middle)];
  const hue: Triple = [0, -chroma[2], chroma[1]];
  const figure = (value: number, along: Triple): Figure => {
    const v = multiply3Vector(covariance, along);
    const half = Z * Math.sqrt(Math.max(0, v[0] * along[0] + v[1] * along[1] + v[2] * along[2]));
    return { value, low: value - half, high: value + half };
  };
  return {
    deltaL: figure(after[0] - before[0], [1, 0, 0]),
    deltaC: figure(C2 - C1, chroma),
    deltaH: figure(2 * Math.sqrt(C1 * C2) * Math.sin(turn / 2), hue),
    deltaA: figure(after[1] - before[1], [0, 1, 0]),
    deltaB: figure(after[2] - before[2], [0, 0, 1]),
  };
}
