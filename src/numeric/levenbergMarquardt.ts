import { solveCholesky } from "./cholesky.ts";

/** A sum of squares to be made small. */
export interface LeastSquaresProblem {
  readonly parameters: number;
  readonly residuals: number;
  /**
   * Writes the residuals at `at` and, unless `jacobian` is null, their derivatives (row-major, a row a residual).
   * Priors are further residuals.
   * @returns The cost to be lowered: the sum of squares, or a robust cost whose gradient is 2 J'r all the same.
   */
  readonly evaluate: (
    at: Float64Array,
    residuals: Float64Array,
    jacobian: Float64Array | null,
  ) => number;
}

export interface LeastSquaresSolution {
  readonly parameters: Float64Array;
  readonly cost: number;
  /** Steps tried, refused ones included. */
  readonly steps: number;
  /** false: the step limit ended the search. */
  readonly converged: boolean;
}

export interface LevenbergMarquardtOptions {
  /** Largest number of steps tried. Default 25. */
  readonly maximumSteps?: number;
  /** The search ends when a step promises to lower the cost by less than this share of it. Default 1e-9. */
  readonly tolerance?: number;
}

const MAXIMUM_STEPS = 25;
const TOLERANCE = 1e-9;
const FIRST_DAMPING = 1e-3;
const LARGEST_DAMPING = 1e12;

/**
 * Least squares by Levenberg and Marquardt: Gauss-Newton steps with damping in proportion to the diagonal.
 * @param problem Residuals, their derivatives and the cost.
 * @param start Where to begin; not changed.
 * @returns The best point seen. A trial point whose cost is not finite is a refused step.
 * @throws {RangeError} The start has another length, or its cost is not finite.
 * @see Marquardt, J. SIAM 11(2), 431-441 (1963). Damping schedule: Madsen, Nielsen & Tingleff, Methods for Non-Linear Least Squares
 * Problems, DTU (2004), section 3.2.
 */
export function levenbergMarquardt(
  problem: LeastSquaresProblem,
  start: ArrayLike<number>,
  options: LevenbergMarquardtOptions = {},
): LeastSquaresSolution {
  const { parameters: n, residuals: m } = problem;
  const maximumSteps = options.maximumSteps ?? MAXIMUM_STEPS;
  const tolerance = options.tolerance ?? TOLERANCE;
  if (start.length !== n)
    throw new RangeError(`Expected a start of ${n} parameters, received ${start.length}.`);
  let at = Float64Array.from(start);
  let trial = new Float64Array(n);
  const residuals = new Float64Array(m);
  const trialResiduals = new Float64Array(m);
  const jacobian = new Float64Array(m * n);
  const normal = new Float64Array(n * n);
  const damped = new Float64Array(n * n);
  const gradient = new Float64Array(n);
  const step = new Float64Array(n);

  let cost = problem.evaluate(at, residuals, jacobian);
  if (!Number.isFinite(cost))
    throw new RangeError("Expected a finite cost at the start of a least-squares fit.");
  normalEquations(jacobian, residuals, normal, gradient);
  let damping = FIRST_DAMPING;
  let growth = 2;
  let steps = 0;
  let converged = cost === 0;
  while (!converged && steps < maximumSteps && damping < LARGEST_DAMPING) {
    steps++;
    damped.set(normal);
    for (let i = 0; i < n; i++) {
      damped[i * n + i] += damping * (normal[i * n + i] || 1);
      step[i] = -gradient[i];
    }
    let gain = -1;
    if (solveCholesky(damped, step)) {
      let promised = 0;
      for (let i = 0; i < n; i++) {
        trial[i] = at[i] + step[i];
        promised += step[i] * (damping * (normal[i * n + i] || 1) * step[i] - gradient[i]);
      }
      converged = promised <= tolerance * cost;
      const trialCost = problem.evaluate(trial, trialResiduals, null);
      gain = (cost - trialCost) / promised;
      if (gain > 0) {
        [at, trial] = [trial, at];
        cost = trialCost;
        damping *= Math.max(1 / 3, 1 - (2 * gain - 1) ** 3);
        growth = 2;
        if (!converged && steps < maximumSteps) {
          problem.evaluate(at, residuals, jacobian);
          normalEquations(jacobian, residuals, normal, gradient);
        }
      }
    }
    if (!(gain > 0)) {
      damping *= growth;
      growth *= 2;
    }
  }
  return { parameters: at, cost, steps, converged };
}

/** J'J (lower triangle) and J'r. */
function normalEquations(
  jacobian: Float64Array,
  residuals: Float64Array,
  normal: Float64Array,
  gradient: Float64Array,
): void {
  const n = gradient.length;
  normal.fill(0);
  gradient.fill(0);
  for (let row = 0; row < residuals.length; row++) {
    const base = row * n;
    const r = residuals[row];
    for (let i = 0; i < n; i++) {
      const d = jacobian[base + i];
      if (d === 0) continue;
      gradient[i] += d * r;
      for (let j = 0; j <= i; j++) normal[i * n + j] += d * jacobian[base + j];
    }
  }
}
