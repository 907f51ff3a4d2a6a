import { cellModel } from "./cellModel.ts";
import { FIRST_STEPS, LEAST_BLACK, MOST_BLACK, solveCoverages, START_COVERAGE, WARM_STEPS } from "./coverages.ts"; // prettier-ignore
import type { DrawnCells } from "./drawnCells.ts";
import {
  cellWeights,
  type FilmFit,
  predictedChange,
  rowVariances,
  showing,
} from "./filmRegression.ts";
import type { LossInterval } from "./mixtureInterval.ts";
import { solveNonNegative } from "./solveNonNegative.ts";

/** Side of a tile, mm. */
export const TILE_MM = 20;
/** Cells drawn for a map. */
export const MAP_CELLS = 20_000;

/** Loss of every plate in every tile of the sheet. */
export interface TileMap {
  readonly columns: number;
  readonly rows: number;
  /** One list a plate, row by row; null where the tile has too little of the plate to say. */
  readonly plates: readonly (readonly (LossInterval | null)[])[];
}

/** As if so many cells had been drawn from the sheet: a tile's errors are its own. */
const SHEET_CELLS = 1600;
/** A tile that lost much is no outlier. */
const OUTLIER = 6;
const LOSS_SD = 0.1;
const OFFSET_SD = 0.01;
const SMALLEST_PLATE_MM2 = 60;
const FACTOR_RANGE = [0.2, 3] as const;
const LAW_SHARE = 0.15;
const LAW_SD = 0.01;
const WITHIN_SDS = 2;

/**
 * The map of one film's regression: in a tile only the losses and the paper's offset are free, the rest is as over the sheet.
 * @param fit The regression of the likeliest film. @param cells Cells drawn for the map.
 * @param places row x width + column of each; `cellMm2` area of the sheet a drawn cell stands for.
 * @param lost F of the plates over all films: every tile is brought to it.
 */
export function tileMap(options: {
  readonly fit: FilmFit;
  readonly cells: DrawnCells;
  readonly places: Int32Array;
  readonly cellMm2: number;
  readonly width: number;
  readonly height: number;
  readonly black: readonly boolean[];
  readonly lost: readonly number[];
  readonly stir: number;
}): TileMap {
  const { fit, cells, places, cellMm2, width, height, black, lost, stir } = options;
  const { theta, unknowns, losses } = fit;
  const k = black.length;
  const n = places.length;
  const target = cells.logT.slice();
  const ends = [MOST_BLACK, LEAST_BLACK].map((end) => {
    const coverages = new Float64Array(n * k).fill(START_COVERAGE);
    const cost = black.map((isBlack) => (isBlack ? end.black : end.colour));
    solveCoverages(fit.unchanged, target, cost, coverages, FIRST_STEPS);
    return { coverages, cost };
  });
  const both = [ends[0].coverages, ends[1].coverages] as const;
  const first = cellModel(fit.unchanged, fit.changed, both);
  const predicted = predictedChange(first, cells, theta, unknowns);
  for (let i = 0; i < target.length; i++) target[i] += (cells.change[i] - predicted[i]) / 2;
  for (const { coverages, cost } of ends)
    solveCoverages(fit.unchanged, target, cost, coverages, WARM_STEPS);
  const model = cellModel(fit.unchanged, fit.changed, both);
  const residual = predictedChange(model, cells, theta, unknowns);
  for (let i = 0; i < residual.length; i++) residual[i] = cells.change[i] - residual[i];
  const variances = rowVariances(model, cells, target, losses);
  const weights = cellWeights(residual, variances, OUTLIER);

  const columns = Math.ceil(width / TILE_MM);
  const rows = Math.ceil(height / TILE_MM);
  const size = k + 3;
  const A = Array.from({ length: columns * rows }, () => new Float64Array(size * size));
  const b = A.map(() => new Float64Array(size));
  const printed = A.map(() => new Float64Array(k));
  const share = SHEET_CELLS / (n * stir * stir);
  const current = Float64Array.from({ length: size }, (_, i) =>
    i < k ? theta[unknowns.loss(i)] : theta[unknowns.offset(i - k)],
  );
  const X = new Float64Array(size);
  for (let cell = 0; cell < n; cell++) {
    const row = Math.floor(places[cell] / width);
    const column = places[cell] - row * width;
    const tile = Math.floor(row / TILE_MM) * columns + Math.floor(column / TILE_MM);
    for (let i = 0; i < k; i++) printed[tile][i] += model.coverage[cell * k + i] * cellMm2;
    for (let c = 0; c < 3; c++) {
      const at = 3 * cell + c;
      const weight = (share * weights[cell]) / variances[at];
      X.fill(0);
      for (let i = 0; i < k; i++) X[i] = model.response[at * k + i];
      X[k + c] = showing(model, theta, unknowns, at);
      let value = residual[at];
      for (let i = 0; i < size; i++) value += X[i] * current[i];
      for (let i = 0; i < size; i++)
        if (X[i] !== 0) {
          b[tile][i] += weight * X[i] * value;
          for (let j = 0; j < size; j++) A[tile][i * size + j] += weight * X[i] * X[j];
        }
    }
  }
  const factors = lost.map((F, i) => {
    if (losses[i] === 0) return F === 0 ? 1 : FACTOR_RANGE[1];
    return Math.min(FACTOR_RANGE[1], Math.max(FACTOR_RANGE[0], F / losses[i]));
  });
  const plates: (LossInterval | null)[][] = black.map(() => []);
  for (let tile = 0; tile < A.length; tile++) {
    for (let i = 0; i < size; i++) {
      const precision = 1 / (i < k ? LOSS_SD : OFFSET_SD) ** 2;
      A[tile][i * size + i] += precision;
      b[tile][i] += precision * current[i];
    }
    const { solution, sd } = solveNonNegative(A[tile], b[tile], k);
    for (let i = 0; i < k; i++) {
      if (printed[tile][i] < SMALLEST_PLATE_MM2) {
        plates[i].push(null);
        continue;
      }
      const F = factors[i] * solution[i];
      const half =
        WITHIN_SDS * Math.sqrt((factors[i] * sd[i]) ** 2 + (LAW_SHARE * F) ** 2 + LAW_SD * LAW_SD);
      plates[i].push({ lost: F, low: Math.max(0, F - half), high: F + half });
    }
  }
  return { columns, rows, plates };
}
