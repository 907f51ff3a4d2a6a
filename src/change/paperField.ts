import type { Triple } from "../numeric/triple.ts";
import { covariance3 } from "../numeric/covariance3.ts";
import { mapMatrix3, type Matrix3 } from "../numeric/matrix3.ts";
import { solveCholesky } from "../numeric/cholesky.ts";
import type { ChangeView } from "./changeView.ts";
import { mapTriple } from "../numeric/mapTriple.ts";

/** Side of the patches over which the change is averaged. */
export const PATCH_MM = 20;
/** A patch with less bare paper than this says nothing. */
const LEAST_PATCH_MM2 = 20;
/** How alike two places came clean falls by a factor e over this distance: soil and washing differ over some centimetres, by judgement. */
const LIKENESS_MM = 40;
/** Share of the variance of a patch that is its own: spots, toned rim, noise. */
const OWN_SHARE = 0.1;

/** The planes of a pair that this needs. */
export type LabPair = Pick<ChangeView, "before" | "after" | "width" | "mmPerCell">;

/** Part of an area: where, how many cells, how it changed. */
interface Patch {
  readonly xMm: number;
  readonly yMm: number;
  readonly cells: number;
  readonly change: Triple;
}

/** How the change of the bare paper differs from place to place. */
export interface PaperField {
  readonly patches: readonly Patch[];
  /** Mean over all cells of the patches. */
  readonly mean: Triple;
  /** Covariance of the mean Lab change between patches; zeros for fewer than two. */
  readonly covariance: Matrix3;
}

/** What the paper under an ink did otherwise than the bare paper on average. */
export interface PaperUnder {
  /** Its likely change less the mean change of the bare paper, L*, a*, b*. */
  readonly offset: Triple;
  /** Covariance of that. */
  readonly covariance: Matrix3;
}

function patchesOf({ before, after, width, mmPerCell }: LabPair, cells: Int32Array): Patch[] {
  const side = PATCH_MM / mmPerCell;
  const across = Math.ceil(width / side);
  // Place, count and change.
  const sums = new Map<number, Float64Array>();
  for (const cell of cells) {
    const row = Math.floor(cell / width);
    const column = cell - row * width;
    const key = Math.floor(row / side) * across + Math.floor(column / side);
    let sum = sums.get(key);
    if (sum === undefined) sums.set(key, (sum = new Float64Array(6)));
    sum[0] += column;
    sum[1] += row;
    sum[2]++;
    for (let c = 0; c < 3; c++) sum[3 + c] += after[c][cell] - before[c][cell];
  }
  const least = LEAST_PATCH_MM2 / mmPerCell ** 2;
  return [...sums.values()]
    .filter(([, , count]) => count >= least)
    .map(([x, y, count, L, a, b]): Patch => ({
      xMm: (x / count) * mmPerCell,
      yMm: (y / count) * mmPerCell,
      cells: count,
      change: [L / count, a / count, b / count],
    }));
}

/** @param cells Bare paper in which both frames have data. */
export function paperField(pair: LabPair, cells: Int32Array): PaperField {
  const patches = patchesOf(pair, cells);
  const all = patches.reduce((sum, patch) => sum + patch.cells, 0);
  const mean = mapTriple(
    [0, 1, 2],
    (c) => patches.reduce((sum, patch) => sum + patch.cells * patch.change[c], 0) / all,
  );
  return { patches, mean, covariance: covariance3(patches.map(({ change }) => change)) };
}

/**
 * Likely change of the paper under an ink, which can't be seen, from the bare paper around it: simple kriging with an exponential likeness.
 * Where there is no paper near, it is the mean of all, and the covariance says how far it may be off.
 * @param inkCells Cells of the ink.
 */
export function paperUnder(
  { patches, mean, covariance }: PaperField,
  pair: LabPair,
  inkCells: Int32Array,
): PaperUnder {
  const under = patchesOf(pair, inkCells);
  const n = patches.length;
  if (n < 2 || under.length === 0) return { offset: [0, 0, 0], covariance };
  const inked = under.reduce((sum, patch) => sum + patch.cells, 0);
  const likeness = (a: Patch, b: Patch): number =>
    a === b
      ? 1
      : (1 - OWN_SHARE) * Math.exp(-Math.hypot(a.xMm - b.xMm, a.yMm - b.yMm) / LIKENESS_MM);
  const toInk = Float64Array.from(patches, (patch) =>
    under.reduce((sum, place) => sum + (place.cells / inked) * likeness(patch, place), 0),
  );
  const amongPaper = new Float64Array(n * n);
  for (let j = 0; j < n; j++)
    for (let k = 0; k <= j; k++) amongPaper[j * n + k] = likeness(patches[j], patches[k]);
  const weights = toInk.slice();
  if (!solveCholesky(amongPaper, weights)) return { offset: [0, 0, 0], covariance };
  const offset = mapTriple([0, 1, 2], (c) =>
    patches.reduce((sum, { change }, j) => sum + weights[j] * (change[c] - mean[c]), 0),
  );
  const amongInk = under.reduce(
    (sum, one) =>
      sum +
      under.reduce(
        (inner, other) =>
          inner + (one.cells / inked) * (other.cells / inked) * likeness(one, other),
        0,
      ),
    0,
  );
  const known = toInk.reduce((sum, value, j) => sum + value * weights[j], 0);
  const unknown = Math.max(0, amongInk - known);
  return { offset, covariance: mapMatrix3(covariance, (value) => value * unknown) };
}
