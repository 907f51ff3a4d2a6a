import { median } from "../numeric/statistics.ts";
import { type CellModel, cellModel } from "./cellModel.ts";
import {
  FIRST_STEPS,
  LEAST_BLACK,
  MOST_BLACK,
  solveCoverages,
  START_COVERAGE,
  WARM_STEPS,
} from "./coverages.ts";
import type { DrawnCells } from "./drawnCells.ts";
import { filmPrior } from "./filmPrior.ts";
import type { InkLaw } from "./inkLaw.ts";
import { type Primaries, primariesOf } from "./primaries.ts";
import { solveNonNegative } from "./solveNonNegative.ts";
import { type Unknowns, unknownsOf } from "./unknowns.ts";

/** The press as it is taken to be. */
export interface Press {
  readonly law: InkLaw;
  /** Absorptions of each plate's ink. */
  readonly absorptions: readonly ArrayLike<number>[];
  readonly black: readonly boolean[];
}

/** Prior knowledge that is the same for every film. */
export interface RegressionPrior {
  /** Of the paper's offset, 3 x 3. */
  readonly offsetCovariance: Float64Array;
  /** Drift of the exponent that the card leaves. */
  readonly driftSd: number;
  /** q: how much changed at all, 0.4..1. */
  readonly stir: number;
}

/** The regression of the change for one film. */
export interface FilmFit {
  readonly film: number;
  readonly unknowns: Unknowns;
  /** All unknowns, losses not negative. */
  readonly theta: Float64Array;
  /** f: losses, not negative; raw: the same set free. */
  readonly losses: Float64Array;
  readonly raw: Float64Array;
  readonly sd: Float64Array;
  /** u: how far show-through lies from what this film says, as a chi-squared. */
  readonly throughMisfit: number;
  readonly unchanged: Primaries;
  readonly changed: Primaries;
  /** Coverages, most black and least black. */
  readonly ends: readonly [Float64Array, Float64Array];
  readonly model: CellModel;
  /** The target the coverages were last solved for. */
  readonly target: Float64Array;
}

const ROUNDS = 3;
const STEPS_A_ROUND = 2;
/** Cells of a neighbourhood are alike and the model's errors do not average out: as if so many cells had been drawn. */
export const SHEET_CELLS = 8;
/** Residuals beyond so many usual ones are down-weighted. */
export const OUTLIER = 2;
const THROUGH_RANGE = [-0.1, 1.1] as const;

/**
 * Regression of the change for one film h.
 * @param ends Coverages to start from, those of a film nearby; null at the first film. Not changed.
 */
export function regressFilm(
  film: number,
  cells: DrawnCells,
  press: Press,
  prior: RegressionPrior,
  ends: readonly [Float64Array, Float64Array] | null,
): FilmFit {
  const { law, absorptions, black } = press;
  const k = absorptions.length;
  const n = cells.spread.length;
  const unknowns = unknownsOf(k);
  const unchanged = primariesOf(law, absorptions, film, new Float64Array(k));
  let changed = unchanged;
  const mostBlack = ends?.[0].slice() ?? new Float64Array(n * k).fill(START_COVERAGE);
  const leastBlack = ends?.[1].slice() ?? new Float64Array(n * k).fill(START_COVERAGE);
  const costs = [MOST_BLACK, LEAST_BLACK].map((end) =>
    black.map((isBlack) => (isBlack ? end.black : end.colour)),
  );
  const { offsetCovariance, driftSd, stir } = prior;
  const priorAt = (losses: ArrayLike<number>) =>
    filmPrior({ unknowns, film, black, losses, offsetCovariance, driftSd });
  const theta = priorAt(new Float64Array(k)).mean.slice();
  const target = cells.logT.slice();
  let raw: Float64Array = theta;
  let sd: Float64Array = new Float64Array(k);
  let model: CellModel | null = null;
  for (let round = 0; round < ROUNDS; round++) {
    if (model !== null) {
      // Noise of the scan before must not sit on both sides.
      const predicted = predictedChange(model, cells, theta, unknowns);
      for (let i = 0; i < target.length; i++)
        target[i] = cells.logT[i] + (cells.change[i] - predicted[i]) / 2;
    }
    const steps = ends === null && round === 0 ? FIRST_STEPS : WARM_STEPS;
    solveCoverages(unchanged, target, costs[0], mostBlack, steps);
    solveCoverages(unchanged, target, costs[1], leastBlack, steps);
    for (let step = 0; step < STEPS_A_ROUND; step++) {
      const losses = theta.subarray(0, k);
      changed = primariesOf(law, absorptions, film, losses);
      model = cellModel(unchanged, changed, [mostBlack, leastBlack]);
      const residual = predictedChange(model, cells, theta, unknowns);
      for (let i = 0; i < residual.length; i++) residual[i] = cells.change[i] - residual[i];
      const variances = rowVariances(model, cells, target, losses);
      const weights = cellWeights(residual, variances, OUTLIER);
      const share = SHEET_CELLS / (n * stir * stir);
      const { A, b } = normalEquations({ model, cells, theta, unknowns, residual, variances, weights, share }); // prettier-ignore
      const { mean, precision } = priorAt(losses);
      for (let i = 0; i < unknowns.count; i++) {
        for (let j = 0; j < unknowns.count; j++) {
          const entry = i * unknowns.count + j;
          A[entry] += precision[entry];
          b[i] += precision[entry] * mean[j];
        }
      }
      const solved = solveNonNegative(A, b, k);
      theta.set(solved.solution);
      raw = solved.free;
      sd = solved.sd;
      for (let c = 0; c < 3; c++) {
        const at = unknowns.through(c);
        theta[at] = Math.min(THROUGH_RANGE[1], Math.max(THROUGH_RANGE[0], theta[at]));
      }
    }
  }
  const { mean, precision } = priorAt(theta);
  let throughMisfit = 0;
  for (let c = 0; c < 3; c++)
    for (let d = 0; d < 3; d++) {
      const [i, j] = [unknowns.through(c), unknowns.through(d)];
      throughMisfit += (theta[i] - mean[i]) * precision[i * unknowns.count + j] * (theta[j] - mean[j]); // prettier-ignore
    }
  changed = primariesOf(law, absorptions, film, theta.subarray(0, k));
  const both = [mostBlack, leastBlack] as const;
  return {
    film,
    unknowns,
    theta,
    losses: theta.slice(0, k),
    raw: raw.slice(0, k),
    sd,
    throughMisfit,
    unchanged,
    changed,
    ends: both,
    model: cellModel(unchanged, changed, both),
    target,
  };
}

/** Predicted y of every row: losses, the paper's change through ink, drift, added light, and inks that answer otherwise. */
export function predictedChange(
  model: CellModel,
  cells: DrawnCells,
  theta: Float64Array,
  unknowns: Unknowns,
): Float64Array {
  const { plates: k } = unknowns;
  const out = new Float64Array(model.change.length);
  for (let row = 0; row < out.length; row++) {
    const cell = (row / 3) | 0;
    const c = row - 3 * cell;
    const lb = cells.before[row];
    let y = model.change[row];
    for (let i = 0; i < k; i++) y += theta[unknowns.answer(i, c)] * model.response[row * k + i];
    y += paperOf(cells, theta, unknowns, row) * showing(model, theta, unknowns, row);
    out[row] = y + theta[unknowns.drift(c)] * lb + theta[unknowns.light(c)] * Math.exp(-lb);
  }
  return out;
}

/** p + dp at a row. */
function paperOf(cells: DrawnCells, theta: Float64Array, unknowns: Unknowns, row: number): number {
  return cells.paperChange[row] + theta[unknowns.offset(row % 3)];
}

/** How much of the paper's change shows at a row: 1 - g (1 - att) + sum of s c. */
export function showing(
  model: CellModel,
  theta: Float64Array,
  unknowns: Unknowns,
  row: number,
): number {
  const { plates: k } = unknowns;
  const cell = (row / 3) | 0;
  const c = row - 3 * cell;
  let share = 1 - theta[unknowns.through(c)] * (1 - model.through[row]);
  for (let i = 0; i < k; i++)
    share += theta[unknowns.inkThrough(i, c)] * model.coverage[cell * k + i];
  return share;
}

const SCAN_SD = 0.008;
const LIGHT_SD = 0.0012;
const SPREAD_SD = 0.05;
const MISFIT_SD = 0.05;
const AMBIGUITY_OF_NONE = 0.03;
const AMBIGUITY_OF_LOSS = 0.7;
const LARGEST_LOSS_COUNTED = 0.4;

/** Variance of every row. */
export function rowVariances(
  model: CellModel,
  cells: DrawnCells,
  target: Float64Array,
  losses: ArrayLike<number>,
): Float64Array {
  const k = losses.length;
  const open = Float64Array.from(
    losses,
    (f) => AMBIGUITY_OF_NONE + AMBIGUITY_OF_LOSS * Math.min(Math.abs(f), LARGEST_LOSS_COUNTED),
  );
  const out = new Float64Array(target.length);
  for (let row = 0; row < out.length; row++) {
    const light = LIGHT_SD * Math.exp(-cells.before[row]);
    const spread = SPREAD_SD * cells.spread[(row / 3) | 0];
    const misfit = MISFIT_SD * (target[row] - model.logT[row]);
    let ambiguity = 0;
    for (let i = 0; i < k; i++) ambiguity += open[i] * model.ambiguity[row * k + i];
    out[row] =
      SCAN_SD * SCAN_SD + light * light + spread * spread + misfit * misfit + ambiguity * ambiguity;
  }
  return out;
}

/** Weight of every cell: outliers less, and all by how large residuals usually are. */
export function cellWeights(
  residual: Float64Array,
  variances: Float64Array,
  outlier: number,
): Float64Array {
  const n = residual.length / 3;
  const z = new Float64Array(n);
  for (let cell = 0; cell < n; cell++) {
    let sum = 0;
    for (let row = 3 * cell; row < 3 * cell + 3; row++)
      sum += (residual[row] * residual[row]) / variances[row];
    z[cell] = Math.sqrt(sum / 3);
  }
  const usual = Math.max(0.05, median(z));
  return z.map((value) => Math.min(1, ((outlier * usual) / value) ** 2) / (usual * usual));
}

/** A = share X'WX and b = share X'W (residual + X theta). Each row touches its own band's columns only. */
function normalEquations(options: {
  readonly model: CellModel;
  readonly cells: DrawnCells;
  readonly theta: Float64Array;
  readonly unknowns: Unknowns;
  readonly residual: Float64Array;
  readonly variances: Float64Array;
  readonly weights: Float64Array;
  readonly share: number;
}): { readonly A: Float64Array; readonly b: Float64Array } {
  const { model, cells, theta, unknowns, residual, variances, weights, share } = options;
  const { plates: k, count } = unknowns;
  const A = new Float64Array(count * count);
  const b = new Float64Array(count);
  const width = 3 * k + 4;
  const X = new Float64Array(width);
  const own = new Float64Array(width * width);
  const right = new Float64Array(width);
  for (let c = 0; c < 3; c++) {
    const columns = [
      ...Array.from({ length: k }, (_, i) => unknowns.loss(i)),
      unknowns.offset(c),
      unknowns.through(c),
      unknowns.drift(c),
      unknowns.light(c),
      ...Array.from({ length: k }, (_, i) => unknowns.answer(i, c)),
      ...Array.from({ length: k }, (_, i) => unknowns.inkThrough(i, c)),
    ];
    const current = Float64Array.from(columns, (column) => theta[column]);
    own.fill(0);
    right.fill(0);
    for (let row = c; row < residual.length; row += 3) {
      const cell = (row / 3) | 0;
      const weight = (share * weights[cell]) / variances[row];
      const paper = paperOf(cells, theta, unknowns, row);
      for (let i = 0; i < k; i++) {
        X[i] = model.response[row * k + i];
        X[k + 4 + i] = X[i];
        X[2 * k + 4 + i] = paper * model.coverage[cell * k + i];
      }
      X[k] = showing(model, theta, unknowns, row);
      X[k + 1] = -paper * (1 - model.through[row]);
      X[k + 2] = cells.before[row];
      X[k + 3] = Math.exp(-cells.before[row]);
      let value = residual[row];
      for (let i = 0; i < width; i++) value += X[i] * current[i];
      for (let i = 0; i < width; i++) {
        const scaled = weight * X[i];
        if (scaled === 0) continue;
        right[i] += scaled * value;
        for (let j = 0; j <= i; j++) own[i * width + j] += scaled * X[j];
      }
    }
    for (let i = 0; i < width; i++) {
      b[columns[i]] += right[i];
      for (let j = 0; j < width; j++)
        A[columns[i] * count + columns[j]] += own[Math.max(i, j) * width + Math.min(i, j)];
    }
  }
  return { A, b };
}
