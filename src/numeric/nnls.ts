import { solveCholesky } from "./cholesky.ts";

const SMALL = 1e-12;

/**
 * Non-negative least squares, min |A x - b| with x >= 0, by the active set of Lawson and Hanson on the normal equations.
 * @param A Columns, each of length m: A[j][i]. A column of zeros keeps x = 0.
 * @param b Length m.
 * @returns x. Where columns depend on each other one of the equal answers.
 * @throws {RangeError} A column of another length than `b`.
 * @see Lawson & Hanson, Solving Least Squares Problems (1974), chapter 23.
 */
export function nnls(A: readonly ArrayLike<number>[], b: ArrayLike<number>): Float64Array {
  const n = A.length;
  const m = b.length;
  for (const column of A)
    if (column.length !== m)
      throw new RangeError(`Expected columns of length ${m}, received one of ${column.length}.`);
  const dot = (p: ArrayLike<number>, q: ArrayLike<number>): number => {
    let sum = 0;
    for (let i = 0; i < m; i++) sum += p[i] * q[i];
    return sum;
  };
  const AtA = A.map((p) => A.map((q) => dot(p, q)));
  const Atb = A.map((p) => dot(p, b));
  const tolerance = SMALL * Atb.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const x = new Float64Array(n);
  const passive: number[] = [];
  const refused = new Set<number>();

  const solvePassive = (): Float64Array | null => {
    const k = passive.length;
    const N = new Float64Array(k * k);
    const s = Float64Array.from(passive, (j) => Atb[j]);
    for (let r = 0; r < k; r++)
      for (let c = 0; c < k; c++) N[r * k + c] = AtA[passive[r]][passive[c]];
    return solveCholesky(N, s) ? s : null;
  };

  for (let round = 0; round < 3 * n + 10; round++) {
    let best = -1;
    let steepest = tolerance;
    for (let j = 0; j < n; j++) {
      if (passive.includes(j) || refused.has(j)) continue;
      let gradient = Atb[j];
      for (let k = 0; k < n; k++) gradient -= AtA[j][k] * x[k];
      if (gradient > steepest) {
        steepest = gradient;
        best = j;
      }
    }
    if (best < 0) return x;
    passive.push(best);
    for (;;) {
      const s = solvePassive();
      const newest = passive.indexOf(best);
      if (s === null || (newest >= 0 && s[newest] <= 0)) {
        // Dependent on the columns already in, or a gradient that was rounding only: it can't help.
        passive.splice(newest, 1);
        refused.add(best);
        break;
      }
      let step = 1;
      for (let k = 0; k < s.length; k++)
        if (s[k] <= 0) step = Math.min(step, x[passive[k]] / (x[passive[k]] - s[k]));
      for (let k = 0; k < s.length; k++) {
        const j = passive[k];
        x[j] += step * (s[k] - x[j]);
      }
      if (step === 1) {
        refused.clear();
        break;
      }
      for (let k = passive.length - 1; k >= 0; k--)
        if (x[passive[k]] <= SMALL * Math.max(...x)) {
          x[passive[k]] = 0;
          passive.splice(k, 1);
        }
    }
  }
  return x;
}
