import { covariance3 } from "../numeric/covariance3.ts";
import type { Matrix3 } from "../numeric/matrix3.ts";
import type { Triple } from "../colour/triple.ts";
import type { ChangeView } from "./changeView.ts";

/** Side of a patch: the scale on which sheets are soiled and come clean. */
export const PATCH_MM = 25;
/** A patch with less bare paper than this says nothing. */
const LEAST_PATCH_MM2 = 20;

/** The planes of a pair that this needs. */
export type LabPair = Pick<ChangeView, "before" | "after" | "width" | "mmPerCell">;

/** How the change of the paper differs from place to place. */
export interface PaperPatchiness {
  /** Covariance of the mean Lab change between patches of {@link PATCH_MM}; zeros for fewer than two. */
  readonly covariance: Matrix3;
  /** Patches that hold enough bare paper. */
  readonly patches: number;
}

/** Mean Lab change in each patch of the cells that holds enough of them; patches in the order of their first cell. */
export function patchChanges(
  { before, after, width, mmPerCell }: LabPair,
  cells: Int32Array,
): Triple[] {
  const side = PATCH_MM / mmPerCell;
  const across = Math.ceil(width / side);
  const sums = new Map<number, [number, number, number, number]>();
  for (const cell of cells) {
    const row = Math.floor(cell / width);
    const patch = Math.floor(row / side) * across + Math.floor((cell - row * width) / side);
    let sum = sums.get(patch);
    if (sum === undefined) sums.set(patch, (sum = [0, 0, 0, 0]));
    for (let c = 0; c < 3; c++) sum[c] += after[c][cell] - before[c][cell];
    sum[3]++;
  }
  const least = LEAST_PATCH_MM2 / mmPerCell ** 2;
  return [...sums.values()]
    .filter(([, , , count]) => count >= least)
    .map(([L, a, b, count]): Triple => [L / count, a / count, b / count]);
}

/** @param cells Bare paper in which both frames have data. */
export function paperPatchiness(pair: LabPair, cells: Int32Array): PaperPatchiness {
  const changes = patchChanges(pair, cells);
  return { covariance: covariance3(changes), patches: changes.length };
}

/**
 * Covariance of the difference between the change of the paper under an ink, which can't be seen, and that of the bare paper: both are means over
 * so many patches of a sheet that didn't come clean evenly.
 * @param inkCells Cells of the ink.
 */
export function patchinessUnder(
  { covariance, patches }: PaperPatchiness,
  pair: LabPair,
  inkCells: Int32Array,
): Matrix3 {
  const share = 1 / Math.max(1, patchChanges(pair, inkCells).length) + 1 / Math.max(1, patches);
  return covariance.map((value) => value * share) as unknown as Matrix3;
}
