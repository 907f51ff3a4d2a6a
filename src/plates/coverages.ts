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

/** A plate held at a bound is let go when it pulls inwards harder than rounding. */
const SMALLEST_PULL = 1e-9;
/** Never reached with four plates; an end to the search whatever rounding does. */
const MOST_RELEASES = 12;

/**
 * Coverages of cells, each plate 0..1, that print what the cells show: least squares on ln T plus a cost of coverage, by Gauss-Newton
 * steps within the bounds, `steps` of them from the coverages given. A step that made things worse is halved.
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
  // A binary tree a band: leaf count + j is primary j, every level joins neighbours and so folds one plate, the root is the mixture.
  const tree = new Float64Array(2 * count);
  const adjoint = new Float64Array(2 * count);
  const J = new Float64Array(3 * k);
  const residual = new Float64Array(3);
  const weights = new Float64Array(3);
  const gradient = new Float64Array(k);
  const H = new Float64Array(k * k);
  const c = new Float64Array(k);
  const previous = new Float64Array(k);
  const move = new Float64Array(k);
  const stepWithin = boundedStep(k);
  for (let cell = 0; cell < cells; cell++) {
    const t0 = 3 * cell;
    const c0 = k * cell;
    for (let i = 0; i < k; i++) c[i] = coverages[c0 + i];
    // The weight is of the residual in ln T: the root of the light that is left.
    for (let band = 0; band < 3; band++) weights[band] = Math.exp(target[t0 + band] / 2) / NOISE;
    let last = Infinity;
    for (let step = 0; step < steps; step++) {
      let value = 0;
      for (let band = 0; band < 3; band++) {
        const from = band * count;
        for (let j = 0; j < count; j++) tree[count + j] = Q[from + j];
        let size = count >> 1;
        for (let i = 0; i < k; i++, size >>= 1) {
          const ci = c[i];
          for (let n = size; n < 2 * size; n++) {
            const left = tree[2 * n];
            tree[n] = left + ci * (tree[2 * n + 1] - left);
          }
        }
        const mixture = tree[1];
        const weight = weights[band];
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
        const r = weight * (target[t0 + band] - YULE_NIELSEN * Math.log(mixture));
        residual[band] = r;
        value += r * r;
      }
      for (let i = 0; i < k; i++) value += 2 * cost[i] * c[i];
      if (value > last) {
        for (let i = 0; i < k; i++) c[i] = (c[i] + previous[i]) / 2;
        continue;
      }
      last = value;
      const damping = step < STEPS_DAMPED ? DAMPING_FIRST : DAMPING;
      for (let i = 0; i < k; i++) {
        previous[i] = c[i];
        gradient[i] =
          J[i] * residual[0] + J[k + i] * residual[1] + J[2 * k + i] * residual[2] - cost[i];
        for (let j = 0; j <= i; j++) {
          const h = J[i] * J[j] + J[k + i] * J[k + j] + J[2 * k + i] * J[2 * k + j];
          H[i * k + j] = h;
          H[j * k + i] = h;
        }
        H[i * k + i] += damping;
      }
      stepWithin(H, gradient, c, move);
      for (let i = 0; i < k; i++) {
        const moved = c[i] + move[i];
        c[i] = moved < 0 ? 0 : moved > 1 ? 1 : moved;
      }
    }
    for (let i = 0; i < k; i++) coverages[c0 + i] = c[i];
  }
}

/**
 * The step that makes 0.5 step'H step - gradient'step least with c + step within 0..1: the plate that would leave furthest goes to its
 * bound and the others answer to that, until none leaves and none is held against its pull.
 */
function boundedStep(
  k: number,
): (H: Float64Array, gradient: Float64Array, c: Float64Array, move: Float64Array) => void {
  const A = new Float64Array(k * k);
  const b = new Float64Array(k);
  const free = new Int32Array(k);
  const held = new Uint8Array(k);
  return (H, gradient, c, move) => {
    for (let i = 0; i < k; i++) {
      held[i] = (c[i] <= 0 && gradient[i] < 0) || (c[i] >= 1 && gradient[i] > 0) ? 1 : 0;
      move[i] = 0;
    }
    for (let releases = 0; ;) {
      let m = 0;
      for (let i = 0; i < k; i++) if (held[i] === 0) free[m++] = i;
      for (let p = 0; p < m; p++) {
        const i = free[p];
        let right = gradient[i];
        for (let j = 0; j < k; j++) if (held[j] === 1) right -= H[i * k + j] * move[j];
        b[p] = right;
        for (let q = 0; q <= p; q++) A[p * m + q] = H[i * k + free[q]];
      }
      solveSmall(A, b, m);
      let leaving = -1;
      let furthest = 0;
      for (let p = 0; p < m; p++) {
        const i = free[p];
        move[i] = b[p];
        const value = c[i] + b[p];
        const beyond = value < 0 ? -value : value - 1;
        if (beyond > furthest) {
          furthest = beyond;
          leaving = i;
        }
      }
      if (leaving >= 0) {
        move[leaving] = (c[leaving] + move[leaving] < 0 ? 0 : 1) - c[leaving];
        held[leaving] = 1;
        continue;
      }
      let released = -1;
      let strongest = SMALLEST_PULL;
      for (let i = 0; i < k; i++) {
        if (held[i] === 0) continue;
        let pull = gradient[i];
        for (let j = 0; j < k; j++) pull -= H[i * k + j] * move[j];
        if (c[i] + move[i] > 0.5) pull = -pull;
        if (pull > strongest) {
          strongest = pull;
          released = i;
        }
      }
      if (released < 0 || ++releases > MOST_RELEASES) return;
      held[released] = 0;
      move[released] = 0;
    }
  };
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
