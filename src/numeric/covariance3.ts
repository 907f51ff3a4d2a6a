import type { Triple } from "./triple.ts";
import type { Matrix3 } from "./matrix3.ts";

/** Unbiased covariance of triples; zeros for fewer than two. */
export function covariance3(values: readonly Triple[]): Matrix3 {
  const n = values.length;
  if (n < 2) return [0, 0, 0, 0, 0, 0, 0, 0, 0];
  const mean = [0, 1, 2].map((i) => values.reduce((sum, value) => sum + value[i], 0) / n);
  const entry = (i: number, j: number): number =>
    values.reduce((sum, value) => sum + (value[i] - mean[i]) * (value[j] - mean[j]), 0) / (n - 1);
  const [xx, xy, xz, yy, yz, zz] = [
    entry(0, 0),
    entry(0, 1),
    entry(0, 2),
    entry(1, 1),
    entry(1, 2),
    entry(2, 2),
  ];
  return [xx, xy, xz, xy, yy, yz, xz, yz, zz];
}
