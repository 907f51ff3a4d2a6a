import { solveCholesky } from "../numeric/cholesky.ts";

/** Solution of normal equations whose first unknowns may not be negative, and what they are when set free. */
export interface NonNegativeSolution {
  readonly solution: Float64Array;
  readonly free: Float64Array;
  /** Root of the diagonal of the inverse, of the first unknowns, when free. */
  readonly sd: Float64Array;
}

/**
 * Solves A x = b with x_i >= 0 for i < k: the most negative is held at 0, and again.
 * @param A Symmetric positive definite, n x n. Not changed.
 * @throws {RangeError} A is not positive definite.
 */
export function solveNonNegative(A: Float64Array, b: Float64Array, k: number): NonNegativeSolution {
  const n = b.length;
  const held = new Set<number>();
  const solve = (right: Float64Array): Float64Array => {
    const kept = Array.from({ length: n }, (_, i) => i).filter((i) => !held.has(i));
    const m = kept.length;
    const part = new Float64Array(m * m);
    for (let i = 0; i < m; i++)
      for (let j = 0; j <= i; j++) part[i * m + j] = A[kept[i] * n + kept[j]];
    const x = Float64Array.from(kept, (i) => right[i]);
    if (!solveCholesky(part, x)) throw new RangeError("Expected positive definite equations.");
    const out = new Float64Array(n);
    kept.forEach((i, at) => (out[i] = x[at]));
    return out;
  };
  const free = solve(b);
  const sd = new Float64Array(k);
  for (let i = 0; i < k; i++) {
    const unit = new Float64Array(n);
    unit[i] = 1;
    sd[i] = Math.sqrt(solve(unit)[i]);
  }
  let solution = free;
  for (;;) {
    let worst = -1;
    for (let i = 0; i < k; i++)
      if (solution[i] < 0 && (worst < 0 || solution[i] < solution[worst])) worst = i;
    if (worst < 0) return { solution, free, sd };
    held.add(worst);
    solution = solve(b);
  }
}
