import { type Hole, holeOf } from "../grid/hole.ts";
import type { Lattice, WorkingGrey } from "./workingGrey.ts";

/** Structure is held in steps of 1/32: four times finer than a step of the 8-bit grey where the paper is plain. */
export const STRUCTURE_STEPS = 32;

/** Marks a pixel that is not the sheet. */
export const NO_STRUCTURE = -128;

/** Keeps noise from being blown up where nothing is printed; squared code values. */
const VARIANCE_FLOOR = 64;

/** The local structure of a picture, freed of local brightness and contrast, hence of fade and whitening. */
export interface StructureImage extends Lattice {
  /** Row-major; local standard score times STRUCTURE_STEPS, clipped to -127..127; NO_STRUCTURE where it is not the sheet. */
  readonly values: Int8Array;
  /** Where some pixels are marked NO_STRUCTURE; null where none is. */
  readonly hole: Hole | null;
}

/** Sums over the rows in reach, one entry for each column, with `pad` empty columns on both sides. */
interface ColumnSums {
  readonly pad: number;
  readonly counts: Float64Array;
  readonly sums: Float64Array;
  readonly squares: Float64Array;
}

/**
 * S = (grey - mean) / sqrt(variance + 64), mean and variance over the square of side 2 radius + 1 pixels, as far as it lies in
 * the picture and on the sheet.
 * @param excluded 1 for pixels that are not the sheet, or null.
 */
export function structureImage(
  picture: WorkingGrey,
  excluded: Uint8Array | null,
  radiusMm: number,
): StructureImage {
  const { width, height, left, top, pitchX, pitchY } = picture;
  const radius = Math.round((2 * radiusMm) / (pitchX + pitchY));
  // Shared between threads without a copy.
  const values = new Int8Array(new SharedArrayBuffer(width * height));
  const pad = radius + 1;
  const columns: ColumnSums = {
    pad,
    counts: new Float64Array(width + 2 * pad),
    sums: new Float64Array(width + 2 * pad),
    squares: new Float64Array(width + 2 * pad),
  };
  const hole = excluded === null ? null : holeOf(excluded, width);
  const isPlain = (row: number): boolean => hole === null || row < hole.top || row > hole.bottom;
  for (let row = 0; row < Math.min(radius, height); row++)
    addRow(picture, excluded, row, 1, columns);
  for (let row = 0; row < height; row++) {
    const enters = row + radius;
    const leaves = row - radius - 1;
    if (enters < height && leaves >= 0 && isPlain(enters) && isPlain(leaves))
      exchangeRows(picture, enters, leaves, columns);
    else {
      if (enters < height) addRow(picture, excluded, enters, 1, columns);
      if (leaves >= 0) addRow(picture, excluded, leaves, -1, columns);
    }
    scoreRow(picture, isPlain(row) ? null : excluded, row, columns, values);
  }
  return { values, hole, width, height, left, top, pitchX, pitchY };
}

/** Adds a row to the sums, or takes it out with sign -1. */
function addRow(
  { pixels, width }: WorkingGrey,
  excluded: Uint8Array | null,
  row: number,
  sign: number,
  { pad, counts, sums, squares }: ColumnSums,
): void {
  for (let c = pad, i = row * width; c < pad + width; c++, i++) {
    if (excluded !== null && excluded[i] !== 0) continue;
    const grey = pixels[i];
    counts[c] += sign;
    sums[c] += sign * grey;
    squares[c] += sign * grey * grey;
  }
}

/** One row in and one out, in half the time. */
function exchangeRows(
  { pixels, width }: WorkingGrey,
  enters: number,
  leaves: number,
  { pad, sums, squares }: ColumnSums,
): void {
  const entering = enters * width;
  const leaving = leaves * width;
  for (let x = 0; x < width; x++) {
    const a = pixels[entering + x];
    const b = pixels[leaving + x];
    sums[pad + x] += a - b;
    squares[pad + x] += (a - b) * (a + b);
  }
}

/** Slides the window along the columns and writes the scores of one row. */
function scoreRow(
  { pixels, width }: WorkingGrey,
  excluded: Uint8Array | null,
  row: number,
  { pad, counts, sums, squares }: ColumnSums,
  values: Int8Array,
): void {
  let n = 0;
  let sum = 0;
  let square = 0;
  for (let c = pad; c < 2 * pad - 1; c++) {
    n += counts[c];
    sum += sums[c];
    square += squares[c];
  }
  for (let x = 0, i = row * width; x < width; x++, i++) {
    const enters = x + 2 * pad - 1;
    n += counts[enters] - counts[x];
    sum += sums[enters] - sums[x];
    square += squares[enters] - squares[x];
    if (excluded !== null && excluded[i] !== 0) {
      values[i] = NO_STRUCTURE;
      continue;
    }
    // Numerator and denominator times n; all sums are whole numbers, so nothing is lost.
    const spread = Math.max(0, n * square - sum * sum) + VARIANCE_FLOOR * n * n;
    const score = (STRUCTURE_STEPS * (n * pixels[i] - sum)) / Math.sqrt(spread);
    values[i] = score > 127 ? 127 : score < -127 ? -127 : Math.floor(score + 0.5);
  }
}
