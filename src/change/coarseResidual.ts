import type { ChangeView } from "./changeView.ts";

/** What the change of each place differs by from that of the same label around it. */
export interface CoarseResidual {
  readonly columns: number;
  readonly rows: number;
  /** Side of a coarse cell in cells, and in mm. */
  readonly factor: number;
  readonly mm: number;
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
  const { before, after, width, height, mmPerCell } = view;
  const factor = Math.max(1, Math.round(COARSE_MM / mmPerCell));
  const columns = Math.floor(width / factor);
  const rows = Math.floor(height / factor);
  const size = columns * rows;
  const coarse = new Uint8Array(size);
  const changeL = new Float32Array(size);
  const changeB = new Float32Array(size);
  const least = (factor * factor) / 2;
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      const first = row * factor * width + column * factor;
      const label = labels[first + Math.floor(factor / 2) * (width + 1)];
      if (label === 0) continue;
      let count = 0;
      let sumL = 0;
      let sumB = 0;
      for (let y = 0; y < factor; y++)
        for (let x = 0; x < factor; x++) {
          const i = first + y * width + x;
          const dL = after[0][i] - before[0][i];
          if (labels[i] !== label || Number.isNaN(dL)) continue;
          count++;
          sumL += dL;
          sumB += after[2][i] - before[2][i];
        }
      if (count < least) continue;
      const at = row * columns + column;
      coarse[at] = label;
      changeL[at] = sumL / count;
      changeB[at] = sumB / count;
    }

  const deltaL = new Float32Array(size).fill(NaN);
  const deltaB = new Float32Array(size).fill(NaN);
  const mm = factor * mmPerCell;
  const reach = Math.round(AROUND_MM / mm);
  for (const [label, box] of boxesOf(coarse, columns))
    takeOffMean(label, box, reach, { columns, coarse, changeL, changeB, deltaL, deltaB });
  return { columns, rows, factor, mm, labels: coarse, deltaL, deltaB };
}

/** First and last column, first and last row. */
type Extent = [left: number, right: number, top: number, bottom: number];

function boxesOf(labels: Uint8Array, columns: number): Map<number, Extent> {
  const boxes = new Map<number, Extent>();
  for (let i = 0; i < labels.length; i++) {
    if (labels[i] === 0) continue;
    const row = Math.floor(i / columns);
    const column = i - row * columns;
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
  readonly columns: number;
  readonly coarse: Uint8Array;
  readonly changeL: Float32Array;
  readonly changeB: Float32Array;
  readonly deltaL: Float32Array;
  readonly deltaB: Float32Array;
}

/** Moving mean of one label by summed areas over its bounding box. */
function takeOffMean(
  label: number,
  [left, right, top, bottom]: Extent,
  reach: number,
  { columns, coarse, changeL, changeB, deltaL, deltaB }: Work,
): void {
  const width = right - left + 1;
  const height = bottom - top + 1;
  const stride = width + 1;
  const count = new Int32Array(stride * (height + 1));
  const sumL = new Float64Array(stride * (height + 1));
  const sumB = new Float64Array(stride * (height + 1));
  for (let y = 0; y < height; y++) {
    let lineCount = 0;
    let lineL = 0;
    let lineB = 0;
    for (let x = 0; x < width; x++) {
      const i = (top + y) * columns + left + x;
      if (coarse[i] === label) {
        lineCount++;
        lineL += changeL[i];
        lineB += changeB[i];
      }
      const at = (y + 1) * stride + x + 1;
      count[at] = count[at - stride] + lineCount;
      sumL[at] = sumL[at - stride] + lineL;
      sumB[at] = sumB[at - stride] + lineB;
    }
  }
  const least = LEAST_AROUND * (2 * reach + 1) ** 2;
  for (let y = 0; y < height; y++) {
    const y0 = Math.max(0, y - reach) * stride;
    const y1 = Math.min(height, y + reach + 1) * stride;
    for (let x = 0; x < width; x++) {
      const i = (top + y) * columns + left + x;
      if (coarse[i] !== label) continue;
      const x0 = Math.max(0, x - reach);
      const x1 = Math.min(width, x + reach + 1);
      const over = (sums: Int32Array | Float64Array): number =>
        sums[y1 + x1] - sums[y0 + x1] - sums[y1 + x0] + sums[y0 + x0];
      const n = over(count);
      if (n < least) continue;
      deltaL[i] = changeL[i] - over(sumL) / n;
      deltaB[i] = changeB[i] - over(sumB) / n;
    }
  }
}
