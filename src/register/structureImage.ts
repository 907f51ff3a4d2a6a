import { MM_PER_INCH } from "./sheetFrame.ts";
import { type Hole, holeOf } from "../grid/hole.ts";
import type { Lattice, WorkingGrey } from "./workingGrey.ts";

/** Structure is held in steps of 1/32: four times finer than a step of the 8-bit grey where the paper is plain. */
export const STRUCTURE_STEPS = 32;

/** Marks a pixel that is not the sheet. */
export const NO_STRUCTURE = -128;

/** Keeps noise from being blown up where nothing is printed; squared code values. */
const VARIANCE_FLOOR = 64;
/** The same where a binomial has left a seventh of the noise. */
const BLURRED_FLOOR = 16;

/**
 * Below this resolution the beat of halftone screen and pixels, which keeps to the frame and not to the sheet, lies just under
 * the finest detail the picture can hold: 85 lines per inch come back as 65 at 150 dpi. A binomial leaves 4 % of that. At 200
 * dpi the screen itself lies there, and sampling between pixels loses it.
 */
const BEAT_DPI = 220;

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
 * S = (grey - mean) / sqrt(variance + floor), mean and variance over the square of side 2 radius + 1 pixels, as far as it lies in
 * the picture and on the sheet.
 * @param excluded 1 for pixels that are not the sheet, or null.
 */
export function structureImage(
  picture: WorkingGrey,
  excluded: Uint8Array | null,
  radiusMm: number,
): StructureImage {
  const { width, height, left, top, pitchX, pitchY } = picture;
  const pitch = (pitchX + pitchY) / 2;
  const blurs = pitch > MM_PER_INCH / BEAT_DPI;
  const seen = blurs ? { ...picture, pixels: binomial(picture, excluded) } : picture;
  const floor = blurs ? BLURRED_FLOOR : VARIANCE_FLOOR;
  const radius = Math.round(radiusMm / pitch);
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
  for (let row = 0; row < Math.min(radius, height); row++) addRow(seen, excluded, row, 1, columns);
  for (let row = 0; row < height; row++) {
    const enters = row + radius;
    const leaves = row - radius - 1;
    if (enters < height && leaves >= 0 && isPlain(enters) && isPlain(leaves))
      exchangeRows(seen, enters, leaves, columns);
    else {
      if (enters < height) addRow(seen, excluded, enters, 1, columns);
      if (leaves >= 0) addRow(seen, excluded, leaves, -1, columns);
    }
    scoreRow(seen, isPlain(row) ? null : excluded, row, columns, { floor, values });
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
  { floor, values }: { readonly floor: number; readonly values: Int8Array },
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
    const spread = Math.max(0, n * square - sum * sum) + floor * n * n;
    const score = (STRUCTURE_STEPS * (n * pixels[i] - sum)) / Math.sqrt(spread);
    values[i] = score > 127 ? 127 : score < -127 ? -127 : Math.floor(score + 0.5);
  }
}

/** Low-passed by the binomial 1 2 1 both ways, the rim repeated; pixels beside excluded ones stay as they are. */
function binomial({ pixels, width, height }: WorkingGrey, excluded: Uint8Array | null): Uint8Array {
  const out = new Uint8Array(pixels.length);
  for (let row = 0; row < height; row++) {
    const above = Math.max(0, row - 1) * width;
    const at = row * width;
    const below = Math.min(height - 1, row + 1) * width;
    let here = pixels[above] + 2 * pixels[at] + pixels[below];
    let left = here;
    for (let x = 0; x < width; x++) {
      const next = Math.min(width - 1, x + 1);
      const right = pixels[above + next] + 2 * pixels[at + next] + pixels[below + next];
      out[at + x] = (left + 2 * here + right + 8) >> 4;
      left = here;
      here = right;
    }
  }
  const hole = excluded && holeOf(excluded, width);
  if (excluded === null || hole === null) return out;
  for (let row = Math.max(0, hole.top - 1); row <= Math.min(height - 1, hole.bottom + 1); row++)
    for (let x = Math.max(0, hole.left - 1); x <= Math.min(width - 1, hole.right + 1); x++) {
      let beside = 0;
      for (let v = Math.max(0, row - 1); v <= Math.min(height - 1, row + 1); v++)
        for (let u = Math.max(0, x - 1); u <= Math.min(width - 1, x + 1); u++)
          beside |= excluded[v * width + u];
      if (beside !== 0) out[row * width + x] = pixels[row * width + x];
    }
  return out;
}
