/** Corners of a window in a summed area: indices just above and left of it, and at its last row and column. */
export interface Corners {
  readonly topLeft: number;
  readonly topRight: number;
  readonly bottomLeft: number;
  readonly bottomRight: number;
}

/**
 * Summed areas (Crow 1984) of several figures on one grid: each entry holds the sum of all above and left of it, so that the sum of any
 * window takes four look-ups. Row-major, (width + 1) * (height + 1), first row and column 0.
 * @param figures Writes the figures of a cell.
 */
export function summedAreas(
  width: number,
  height: number,
  tables: number,
  figures: (x: number, y: number, out: Float64Array) => void,
): Float64Array[] {
  const stride = width + 1;
  const sums = Array.from({ length: tables }, () => new Float64Array(stride * (height + 1)));
  const cell = new Float64Array(tables);
  const line = new Float64Array(tables);
  for (let y = 0; y < height; y++) {
    line.fill(0);
    for (let x = 0; x < width; x++) {
      figures(x, y, cell);
      const at = (y + 1) * stride + x + 1;
      for (let k = 0; k < tables; k++) {
        line[k] += cell[k];
        sums[k][at] = sums[k][at - stride] + line[k];
      }
    }
  }
  return sums;
}

/**
 * Makes a summed area of a table in which each cell's figure was gathered where its sum will stand, at (x + 1, y + 1); in place.
 */
export function sumUpInPlace(table: Float64Array, width: number, height: number): void {
  const stride = width + 1;
  for (let y = 1; y <= height; y++)
    for (let x = 1; x <= width; x++) {
      const at = y * stride + x;
      table[at] += table[at - 1] + table[at - stride] - table[at - stride - 1];
    }
}

/** The window of side 2 reach + 1 about a cell, as far as it lies on the grid. */
export function windowAbout(
  x: number,
  y: number,
  reach: number,
  { width, height }: { readonly width: number; readonly height: number },
): Corners {
  const stride = width + 1;
  const top = Math.max(0, y - reach) * stride;
  const bottom = Math.min(height, y + reach + 1) * stride;
  const left = Math.max(0, x - reach);
  const right = Math.min(width, x + reach + 1);
  return {
    topLeft: top + left,
    topRight: top + right,
    bottomLeft: bottom + left,
    bottomRight: bottom + right,
  };
}

/** Sum over a window. */
export function sumWithin(sums: Float64Array, at: Corners): number {
  return sums[at.bottomRight] - sums[at.topRight] - sums[at.bottomLeft] + sums[at.topLeft];
}
