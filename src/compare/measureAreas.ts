import type { Correction } from "../calibrate/correction.ts";
import { labOfMean } from "../calibrate/labOfMean.ts";
import { lightTerm } from "../calibrate/lightTerm.ts";
import type { AreaDifference, PreparedFloor } from "../calibrate/prepareFloor.ts";
import { samplingCovariance } from "../calibrate/samplingCovariance.ts";
import { blockMeans } from "../grid/blockMeans.ts";
import type { ChangeView } from "../change/changeView.ts";
import { meanOverCells } from "../grid/meanOverCells.ts";
import { greyScaleChange } from "../colour/greyScaleChange.ts";
import { quantiles } from "../numeric/statistics.ts";
import type { Planes } from "../grid/planes.ts";
import type { AreaReport } from "../results/compareResult.ts";
import { placeCovariance } from "./placeCovariance.ts";

/** Everything that measuring an area of a registered pair needs. */
export interface MeasuredPair {
  /** Tone-corrected linear means on one lattice, not low-passed: next to an edge a low-pass would add the neighbour's light to a mean. */
  readonly before: Planes;
  readonly after: Planes;
  readonly corrections: readonly [Correction, Correction];
  /** dE00 a cell. */
  readonly difference: Float32Array;
  readonly floor: PreparedFloor;
  /** Share by which the light on an area may differ between the frames unseen by the card. */
  readonly lightShare: number;
  readonly mmPerCell: number;
  /** Both frames in CIELAB, from the low-passed planes. */
  readonly view: ChangeView;
  /** Standard deviation of the place of every cell in the after frame along either axis, mm. */
  readonly sigmaMm: Float32Array;
  /** What each cell counts in a mean (`usableCells`). */
  readonly weights: Float32Array;
}

export interface MeasuredAreaResult {
  readonly report: AreaReport;
  /** null where the area has too few usable cells. */
  readonly measured: AreaDifference | null;
}

/** Blocks over which an area's own texture is averaged before its scatter is taken: several halftone periods. */
const BLOCK_MM = 1.35;

/** Fewer usable cells than this say nothing about an area. */
const FEWEST_CELLS = 9;

/**
 * Measures one area.
 * @param cells Usable cells of the area, without mixtures.
 * @param areaCm2 Printed area it stands for.
 * @param regionCount Areas that are judged together: widens each floor so that all of them together keep 95 %.
 */
export function measureArea(
  pair: MeasuredPair,
  cells: Int32Array,
  areaCm2: number,
  regionCount: number,
): MeasuredAreaResult {
  const { before, after, corrections, difference, mmPerCell, sigmaMm, weights } = pair;
  const { width, stepX, stepY } = before;
  let sumColumn = 0;
  let sumRow = 0;
  for (const cell of cells) {
    const row = Math.floor(cell / width);
    sumRow += row;
    sumColumn += cell - row * width;
  }
  const place = {
    areaCm2,
    pixels: Math.round(cells.length * stepX * stepY),
    centroidPixels: [
      (sumColumn / cells.length + 0.5) * stepX - 0.5,
      (sumRow / cells.length + 0.5) * stepY - 0.5,
    ] as const,
  };
  if (cells.length < FEWEST_CELLS) return { report: { ...place, ...NOT_MEASURED }, measured: null };

  const blockCells = Math.max(1, Math.round(BLOCK_MM / mmPerCell));
  const blocks = (planes: Planes, correction: Correction) =>
    blockMeans(planes, cells, blockCells).map((mean) => labOfMean(correction, mean));
  const meanBefore = meanOverCells(before, cells, weights);
  const measured = pair.floor.at(
    {
      before: meanBefore,
      after: meanOverCells(after, cells, weights),
      light: lightTerm(labOfMean(corrections[0], meanBefore), pair.lightShare),
      place: placeCovariance(pair.view, sigmaMm, cells, weights),
      sampling: samplingCovariance(
        blocks(before, corrections[0]),
        blocks(after, corrections[1]),
        "registered",
      ),
    },
    regionCount,
  );
  const differences = new Float32Array(cells.length);
  for (let k = 0; k < cells.length; k++) differences[k] = difference[cells[k]];
  const [median, p95] = quantiles(differences, 0.5, 0.95);
  return {
    measured,
    report: {
      ...place,
      labBefore: measured.labBefore,
      labAfter: measured.labAfter,
      deltaE00: measured.deltaE00,
      deltaE00Low: measured.interval.low,
      deltaE00High: measured.interval.high,
      floorDeltaE00: measured.floor,
      deltaL: measured.split.deltaL.value,
      deltaC: measured.split.deltaC.value,
      deltaH: measured.split.deltaH.value,
      pixelDeltaE00: { median, p95 },
      greyScaleStep: greyScaleChange(measured.labBefore, measured.labAfter).step,
    },
  };
}

/** Figures of an area that can't be measured. */
export const NOT_MEASURED = {
  labBefore: null,
  labAfter: null,
  deltaE00: null,
  deltaE00Low: null,
  deltaE00High: null,
  floorDeltaE00: null,
  deltaL: null,
  deltaC: null,
  deltaH: null,
  pixelDeltaE00: { median: null, p95: null },
  greyScaleStep: null,
} as const;
