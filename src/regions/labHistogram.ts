import type { LabImage } from "../grid/labImage.ts";

/** Side of a bin in Lab units: fine against the bandwidths, coarse against noise. */
const BIN = 3;
const MIN_L = -9;
const MIN_AB = -150;
const STEPS_L = 44;
const STEPS_AB = 100;

/** Filled bins of a colour histogram, strongest first (equal counts: darker first). Parallel arrays. */
export interface LabHistogram {
  readonly count: Float64Array;
  /** Mean colour of the cells in the bin. */
  readonly L: Float64Array;
  readonly a: Float64Array;
  readonly b: Float64Array;
  /** Cells counted. */
  readonly total: number;
}

function slot(value: number, start: number, steps: number): number {
  const k = Math.floor((value - start) / BIN);
  return k < 0 ? 0 : k >= steps ? steps - 1 : k;
}

/**
 * Colour histogram of the cells under a mask, in bins of 3 Lab units, each with the mean colour of its cells.
 * @param mask Of the image's shape; cells with 0 and cells without data are left out.
 */
export function labHistogram(image: LabImage, mask: Uint8Array): LabHistogram {
  const { L, a, b } = image;
  const size = STEPS_L * STEPS_AB * STEPS_AB;
  const sums = new Float64Array(4 * size); // count, sum of L, a, b of one bin side by side
  let total = 0;
  for (let i = 0; i < L.length; i++) {
    if (mask[i] === 0 || Number.isNaN(L[i])) continue;
    const key =
      (slot(L[i], MIN_L, STEPS_L) * STEPS_AB + slot(a[i], MIN_AB, STEPS_AB)) * STEPS_AB +
      slot(b[i], MIN_AB, STEPS_AB);
    sums[4 * key]++;
    sums[4 * key + 1] += L[i];
    sums[4 * key + 2] += a[i];
    sums[4 * key + 3] += b[i];
    total++;
  }
  const filled: number[] = [];
  for (let key = 0; key < size; key++) if (sums[4 * key] > 0) filled.push(key);
  filled.sort((p, q) => sums[4 * q] - sums[4 * p] || p - q);
  const mean = (c: number): Float64Array =>
    Float64Array.from(filled, (key) => sums[4 * key + c] / sums[4 * key]);
  return {
    count: Float64Array.from(filled, (key) => sums[4 * key]),
    L: mean(1),
    a: mean(2),
    b: mean(3),
    total,
  };
}
