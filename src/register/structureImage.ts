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
  const { pixels, width, height, left, top, pitchX, pitchY } = picture;
  const radius = Math.round((2 * radiusMm) / (pitchX + pitchY));
  const values = new Int8Array(width * height);
  // Sums over the rows in reach, one for each column; rows enter and leave, then a window slides along them.
  const counts = new Int32Array(width);
  const sums = new Int32Array(width);
  const squares = new Float64Array(width);
  const addRow = (row: number, sign: number): void => {
    for (let x = 0, i = row * width; x < width; x++, i++) {
      if (excluded !== null && excluded[i] !== 0) continue;
      const grey = pixels[i];
      counts[x] += sign;
      sums[x] += sign * grey;
      squares[x] += sign * grey * grey;
    }
  };
  for (let row = 0; row < Math.min(radius, height); row++) addRow(row, 1);
  for (let y = 0; y < height; y++) {
    if (y + radius < height) addRow(y + radius, 1);
    if (y - radius - 1 >= 0) addRow(y - radius - 1, -1);
    let n = 0;
    let sum = 0;
    let square = 0;
    for (let x = 0; x < Math.min(radius, width); x++) {
      n += counts[x];
      sum += sums[x];
      square += squares[x];
    }
    for (let x = 0, i = y * width; x < width; x++, i++) {
      const enters = x + radius;
      const leaves = x - radius - 1;
      if (enters < width) {
        n += counts[enters];
        sum += sums[enters];
        square += squares[enters];
      }
      if (leaves >= 0) {
        n -= counts[leaves];
        sum -= sums[leaves];
        square -= squares[leaves];
      }
      if (excluded !== null && excluded[i] !== 0) {
        values[i] = NO_STRUCTURE;
        continue;
      }
      const mean = sum / n;
      const variance = Math.max(0, square / n - mean * mean);
      const score = ((pixels[i] - mean) / Math.sqrt(variance + VARIANCE_FLOOR)) * STRUCTURE_STEPS;
      values[i] = Math.max(-127, Math.min(127, Math.round(score)));
    }
  }
  return { values, width, height, left, top, pitchX, pitchY };
}
