import { coarsen } from "../grid/coarsen.ts";
import { coarserGrid, type CoarserGrid } from "../grid/coarserGrid.ts";
import { summedAreas, sumWithin, windowAbout } from "../grid/summedArea.ts";
import type { ChangeView } from "./changeView.ts";

/** What the change of each place differs by from that of the same label around it. */
export interface CoarseResidual extends CoarserGrid {
  /** Label of each coarse cell; 0 where it is mixed or not measured. */
  readonly labels: Uint8Array;
  /** Residual change of L* and b*; NaN where the label is 0. */
  readonly deltaL: Float32Array;
  readonly deltaB: Float32Array;
}

/** Fine enough for a line of half a millimetre that the low-pass has widened to one. */
const COARSE_MM = 0.35;
/** Half side of the square over which the change of a label is averaged: wide against a line, narrow against uneven cleaning. */
const AROUND_MM = 6;
/** Fewer of the label around a place than this share of the square give no mean to differ from. */
const LEAST_AROUND = 0.05;

/**
 * Residual change on a coarser lattice: the mean change of the label within 6 mm is taken off. What washing does to paper and to every
 * ink, and slow differences from place to place, go; a narrow line stays.
 * @param labels Label of each cell that may be looked at, 0 elsewhere (edges, untrusted, off the sheet).
 */
export function coarseResidual(view: ChangeView, labels: Uint8Array): CoarseResidual {
  const { before, after } = view;
  const grid = coarserGrid(view, COARSE_MM);
  const change = [0, 2].map((c) => ({ plane: after[c], less: before[c] }));
  const coarse = coarsen(labels, view.width, grid, change, 1 / 2);
  const [deltaL, deltaB] = coarse.means.map((plane) => new Float32Array(plane.length).fill(NaN));
  const reach = Math.round(AROUND_MM / grid.mmPerCell);
  for (const [label, box] of boxesOf(coarse.labels, grid.width))
    takeOffMean({
      label,
      box,
      reach,
      labels: coarse.labels,
      width: grid.width,
      changes: coarse.means,
      residuals: [deltaL, deltaB],
    });
  return { ...grid, labels: coarse.labels, deltaL, deltaB };
}

/** First and last column, first and last row. */
type Extent = [left: number, right: number, top: number, bottom: number];

function boxesOf(labels: Uint8Array, width: number): Map<number, Extent> {
  const boxes = new Map<number, Extent>();
  for (let i = 0; i < labels.length; i++) {
    if (labels[i] === 0) continue;
    const row = Math.floor(i / width);
    const column = i - row * width;
    const box = boxes.get(labels[i]);
    if (box === undefined) boxes.set(labels[i], [column, column, row, row]);
    else {
      box[0] = Math.min(box[0], column);
      box[1] = Math.max(box[1], column);
      box[3] = row;
    }
  }
  return boxes;
}

interface Work {
  readonly label: number;
  readonly box: Extent;
  /** Cells to either side. */
  readonly reach: number;
  readonly labels: Uint8Array;
  readonly width: number;
  readonly changes: readonly Float32Array[];
  /** Written on the cells of the label. */
  readonly residuals: readonly Float32Array[];
}

/** Takes the moving mean of one label off its cells. */
function takeOffMean({ label, box, reach, labels, width, changes, residuals }: Work): void {
  const [left, right, top, bottom] = box;
  const extent = { width: right - left + 1, height: bottom - top + 1 };
  const at = (x: number, y: number): number => (top + y) * width + left + x;
  const [changeL, changeB] = changes;
  const [counts, sumL, sumB] = summedAreas(extent.width, extent.height, 3, (x, y, out) => {
    const i = at(x, y);
    const counted = labels[i] === label;
    out[0] = counted ? 1 : 0;
    out[1] = counted ? changeL[i] : 0;
    out[2] = counted ? changeB[i] : 0;
  });
  const least = LEAST_AROUND * (2 * reach + 1) ** 2;
  for (let y = 0; y < extent.height; y++)
    for (let x = 0; x < extent.width; x++) {
      const i = at(x, y);
      if (labels[i] !== label) continue;
      const around = windowAbout(x, y, reach, extent);
      const n = sumWithin(counts, around);
      if (n < least) continue;
      residuals[0][i] = changeL[i] - sumWithin(sumL, around) / n;
      residuals[1][i] = changeB[i] - sumWithin(sumB, around) / n;
    }
}
