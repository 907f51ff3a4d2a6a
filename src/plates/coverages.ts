import { type Primaries, YULE_NIELSEN } from "./primaries.ts";

/** Steps of a first solution, and of one that starts from the solution of a film nearby. */
export const FIRST_STEPS = 14;
export const WARM_STEPS = 5;

/** Where every coverage of a first solution starts. */
export const START_COVERAGE = 0.25;

/** Noise of ln T at the paper; the square root of light weighs dark bands down, where noise counts most. */
const NOISE = 0.04;
const DAMPING_FIRST = 0.3;
const DAMPING = 0.05;
const STEPS_DAMPED = 4;

/** The two ends of what three bands leave open where black and three colours look alike: cost of coverage, colours and black. */
export const MOST_BLACK = { colour: 0.6, black: 0.2 } as const;
export const LEAST_BLACK = { colour: 0, black: 1.5 } as const;

/**
 * Coverages of cells, each plate 0..1, that print what the cells show: least squares on ln T plus a cost of coverage, by Gauss-Newton
 * with an active set, `steps` steps from the coverages given.
 * @param target ln T of the cells, three values a cell.
 * @param cost 2 cost . c is added to the sum of squares; one value a plate.
 * @param coverages k values a cell; read as start, overwritten with the solution.
 */
export function solveCoverages(
  primaries: Primaries,
  target: Float64Array,
  cost: ArrayLike<number>,
  coverages: Float64Array,
  steps: number,
): void {
  const { plates: k, count, Q } = primaries;
  const cells = target.length / 3;
  // A binary tree a band: leaf j is primary j, a level folds one plate, the root is the mixture.
  const tree = new Float64Array(2 * count);
  const adjoint = new Float64Array(2 * count);
  const J = new Float64Array(3 * k);
  const residual = new Float64Array(3);
  const gradient = new Float64Array(k);
  const A = new Float64Array(k * k);
  const b = new Float64Array(k);
  const free = new Int32Array(k);
  const c = new Float64Array(k);
  for (let cell = 0; cell < cells; cell++) {
    const t0 = 3 * cell;
    const c0 = k * cell;
    for (let i = 0; i < k; i++) c[i] = coverages[c0 + i];
    for (let step = 0; step < steps; step++) {
      for (let band = 0; band < 3; band++) {
        // The weight is of the residual in ln T: the root of the light that is left.
        const weight = Math.exp(target[t0 + band] / 2) / NOISE;
        const from = band * count;
        for (let j = 0; j < count; j++) tree[count + j] = Q[from + j];
        // The level that folds plate 0 joins neighbours; node n has children 2n and 2n + 1.
        let size = count >> 1;
        for (let i = 0; i < k; i++, size >>= 1) {
          const ci = c[i];
          for (let n = size; n < 2 * size; n++) {
            const left = tree[2 * n];
            tree[n] = left + ci * (tree[2 * n + 1] - left);
          }
        }
        const mixture = tree[1];
        const scale = (weight * YULE_NIELSEN) / mixture;
        adjoint[1] = 1;
        size = 1;
        for (let i = k - 1; i >= 0; i--, size <<= 1) {
          const ci = c[i];
          let slope = 0;
          for (let n = size; n < 2 * size; n++) {
            const a = adjoint[n];
            slope += a * (tree[2 * n + 1] - tree[2 * n]);
            adjoint[2 * n] = a * (1 - ci);
            adjoint[2 * n + 1] = a * ci;
          }
          J[band * k + i] = scale * slope;
        }
        residual[band] = weight * (target[t0 + band] - YULE_NIELSEN * Math.log(mixture));
      }
      let m = 0;
      for (let i = 0; i < k; i++) {
        const g =
          J[i] * residual[0] + J[k + i] * residual[1] + J[2 * k + i] * residual[2] - cost[i];
        gradient[i] = g;
        if ((c[i] <= 0 && g < 0) || (c[i] >= 1 && g > 0)) continue;
        free[m++] = i;
      }
      const damping = step < STEPS_DAMPED ? DAMPING_FIRST : DAMPING;
      for (let p = 0; p < m; p++) {
        const i = free[p];
        for (let q = 0; q <= p; q++) {
          const j = free[q];
          A[p * m + q] = J[i] * J[j] + J[k + i] * J[k + j] + J[2 * k + i] * J[2 * k + j];
        }
        A[p * m + p] += damping;
        b[p] = gradient[i];
      }
      solveSmall(A, b, m);
      for (let p = 0; p < m; p++) {
        const value = c[free[p]] + b[p];
        c[free[p]] = value < 0 ? 0 : value > 1 ? 1 : value;
      }
    }
    for (let i = 0; i < k; i++) coverages[c0 + i] = c[i];
  }
}

/** Cholesky of a small positive definite system without checks: the damping keeps every pivot positive. Lower triangle read. */
function solveSmall(A: Float64Array, b: Float64Array, n: number): void {
  for (let j = 0; j < n; j++) {
    let pivot = A[j * n + j];
    for (let l = 0; l < j; l++) pivot -= A[j * n + l] * A[j * n + l];
    const root = Math.sqrt(pivot);
    A[j * n + j] = root;
    for (let i = j + 1; i < n; i++) {
      let sum = A[i * n + j];
      for (let l = 0; l < j; l++) sum -= A[i * n + l] * A[j * n + l];
      A[i * n + j] = sum / root;
    }
  }
  for (let i = 0; i < n; i++) {
    let sum = b[i];
    for (let l = 0; l < i; l++) sum -= A[i * n + l] * b[l];
    b[i] = sum / A[i * n + i];
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = b[i];
    for (let l = i + 1; l < n; l++) sum -= A[l * n + i] * b[l];
    b[i] = sum / A[i * n + i];
  }
}
