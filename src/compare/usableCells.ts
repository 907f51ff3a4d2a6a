import type { PreparedFloor } from "../calibrate/prepareFloor.ts";
import type { Correction } from "../calibrate/correction.ts";
import { labOfMean } from "../calibrate/labOfMean.ts";
import { lightTerm } from "../calibrate/lightTerm.ts";
import { cellsByLabel } from "../grid/cellsByLabel.ts";
import { meanOverCells } from "../grid/meanOverCells.ts";
import type { Planes } from "../grid/planes.ts";
import { quantile } from "../numeric/statistics.ts";
import type { RegionMap } from "../regions/regionMap.ts";

/**
 * A cell is left out where the registration's error of its dE00 (one standard deviation) is more than this share of the floor: up to it the error is
 * within what is not claimed anyway, and the cell tells at least half as much as one that is placed without error.
 */
export const MOST_SHARE = 1;

/** What each cell may contribute. */
export interface UsableCells {
  /** 1: on the sheet, seen in both frames, and the map's error does little there. */
  readonly usable: Uint8Array;
  /** What it counts in a mean: inverse variance, of its ink's floor and of the map's error; 0 where not usable. */
  readonly weights: Float32Array;
  /** Share of the sheet that is usable, 0..1; 0 without a sheet. */
  readonly measuredShare: number;
}

/**
 * Decides cell by cell what may be measured, by what a misplaced cell would do to its figure: flat colour is measured
 * however little holds the map there, an edge only where the map is good.
 * @param frames Low-passed planes of both frames on one lattice; NaN = not seen.
 * @param effect Error of dE00 a cell (`registrationEffect`).
 */
export function usableCells(
  frames: {
    readonly before: Planes;
    readonly after: Planes;
    readonly corrections: readonly [Correction, Correction];
    readonly floor: PreparedFloor;
    readonly lightShare: number;
  },
  regions: Pick<RegionMap, "labels" | "sheet" | "inks">,
  effect: Float32Array,
): UsableCells {
  const { labels, sheet } = regions;
  const { length } = effect;
  const seen = new Uint8Array(length);
  let onSheet = 0;
  for (let i = 0; i < length; i++) {
    if (sheet.mask[i] === 0) continue;
    onSheet++;
    // NaN where the map knows nothing.
    if (effect[i] >= 0 && !Number.isNaN(frames.after.channels[0][i])) seen[i] = 1;
  }
  const floors = floorsOfLabels(frames, labels, seen, regions.inks.length + 1);
  const usable = new Uint8Array(length);
  const weights = new Float32Array(length);
  let measured = 0;
  for (let i = 0; i < length; i++) {
    const floor = floors[labels[i]];
    if (seen[i] === 0 || !(effect[i] <= MOST_SHARE * floor)) continue;
    usable[i] = 1;
    weights[i] = 1 / (floor * floor + effect[i] * effect[i]);
    measured++;
  }
  return { usable, weights, measuredShare: onSheet === 0 ? 0 : measured / onSheet };
}

/**
 * Floor of the mean colour of each label by card, bootstrap and light, all judged together: what its area can't beat, whatever its texture and
 * place. Places without a label have the median one.
 */
function floorsOfLabels(
  { before, after, corrections, floor, lightShare }: Parameters<typeof usableCells>[0],
  labels: Uint8Array,
  seen: Uint8Array,
  judged: number,
): Float64Array {
  const byLabel = [...cellsByLabel(labels, seen)].map(([label, cells]) => {
    const mean = meanOverCells(before, cells);
    const light = lightTerm(labOfMean(corrections[0], mean), lightShare);
    return {
      label,
      floor: floor.at({ before: mean, after: meanOverCells(after, cells), light }, judged).floor,
    };
  });
  const usual =
    byLabel.length === 0
      ? NaN
      : quantile(
          byLabel.map((one) => one.floor),
          0.5,
        );
  const floors = new Float64Array(256).fill(usual);
  for (const one of byLabel) floors[one.label] = one.floor;
  return floors;
}
