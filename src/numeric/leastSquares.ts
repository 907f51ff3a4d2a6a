import { Matrix, SingularValueDecomposition } from "ml-matrix";

export interface LeastSquaresFit {
  readonly solution: readonly number[];
  /** b - A x, unweighted. */
  readonly residuals: readonly number[];
  readonly rank: number;
  /** Largest by smallest singular value of the weighted matrix; Infinity when the rank is short. */
  readonly condition: number;
}

/** Singular values below this share of the largest count as zero. */
const SMALLEST_SINGULAR = 1e-10;

/**
 * General linear least squares by singular values: the shortest x that makes |W^(1/2) (A x - b)| least.
 * @param rows The rows of A.
 * @param b One value a row.
 * @param weights Weight of each squared residual, >= 0. Default 1.
 * @throws {RangeError} No rows, or the lengths differ.
 */
export function leastSquares(
  rows: readonly (readonly number[])[],
  b: readonly number[],
  weights?: readonly number[],
): LeastSquaresFit {
  const m = rows.length;
  if (m === 0 || b.length !== m || (weights !== undefined && weights.length !== m))
    throw new RangeError(`Expected as many rows as values, received ${m} and ${b.length}.`);
  const n = rows[0].length;
  const root = weights?.map(Math.sqrt);
  const A = new Matrix(rows.map((row, i) => row.map((value) => value * (root?.[i] ?? 1))));
  const svd = new SingularValueDecomposition(A, { autoTranspose: true });
  const values = svd.diagonal;
  const threshold = values[0] * SMALLEST_SINGULAR;
  const rank = values.filter((value) => value > threshold).length;
  const U = svd.leftSingularVectors;
  const V = svd.rightSingularVectors;
  const solution = new Array<number>(n).fill(0);
  for (let k = 0; k < rank; k++) {
    let projected = 0;
    for (let i = 0; i < m; i++) projected += U.get(i, k) * b[i] * (root?.[i] ?? 1);
    for (let j = 0; j < n; j++) solution[j] += (V.get(j, k) * projected) / values[k];
  }
  const residuals = rows.map(
    (row, i) => b[i] - row.reduce((sum, value, j) => sum + value * solution[j], 0),
  );
  return {
    solution,
    residuals,
    rank,
    condition: rank < n ? Infinity : values[0] / values[n - 1],
  };
}
