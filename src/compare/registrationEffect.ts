import type { ChangeView } from "../change/changeView.ts";
import type { LabPlanes } from "../change/differenceMap.ts";

/** The planes of a pair that this needs. */
export type PlacedPair = Pick<ChangeView, "before" | "after" | "width" | "height" | "mmPerCell">;

/**
 * A place known worse than this has no colour of its own: it is the width of the low-pass, within which everything is one colour,
 * while beyond it nothing near the cell tells what may lie there.
 */
export const MOST_SIGMA_MM = 1;

const TWENTY_FIVE_POW_7 = 25 ** 7;

/**
 * The error of dE00 (one standard deviation) that the uncertainty of the map causes in every cell: the root mean square of the change of
 * colour between a cell and what lies one standard deviation to either side of it along both axes; where that is less than a
 * cell, in proportion. Of the two frames the one with the steeper picture counts: an ink that faded may have been steeper before.
 *
 * Where nothing changes from place to place it is next to nothing, however badly the place is known. Small differences are measured by the
 * weights of CIEDE2000 for lightness, chroma and hue at the cell's own colour, without its turn in the blues and its
 * ripple by hue: good to about a fifth, and this is an error's error.
 * @param pair Low-passed CIELAB of both frames on one lattice.
 * @param sigmaMm Standard deviation of the place along either axis.
 * @param sheet Cells with 0 are left out.
 * @returns dE00; NaN where the map knows nothing or less than {@link MOST_SIGMA_MM}, where a frame has no data, and off the sheet.
 */
export function registrationEffect(
  { before, after, width, height, mmPerCell }: PlacedPair,
  sigmaMm: Float32Array,
  sheet: Uint8Array,
): Float32Array {
  const effect = new Float32Array(width * height).fill(NaN);
  for (let row = 0, i = 0; row < height; row++)
    for (let column = 0; column < width; column++, i++) {
      const sigma = sigmaMm[i];
      // NaN fails as well.
      if (sheet[i] === 0 || !(sigma <= MOST_SIGMA_MM)) continue;
      const reach = Math.max(1, Math.round(sigma / mmPerCell));
      const left = column >= reach ? i - reach : -1;
      const right = column + reach < width ? i + reach : -1;
      const up = row >= reach ? i - reach * width : -1;
      const down = row + reach < height ? i + reach * width : -1;
      const first = meanSquare(before, i, left, right) + meanSquare(before, i, up, down);
      const second = meanSquare(after, i, left, right) + meanSquare(after, i, up, down);
      // NaN stays NaN.
      effect[i] = (Math.sqrt(Math.max(first, second)) * sigma) / (reach * mmPerCell);
    }
  return effect;
}

/** Mean of the squared differences of a cell from two others, of those that have data; -1: beyond the frame. */
function meanSquare([L, a, b]: LabPlanes, i: number, one: number, other: number): number {
  const [l, p, q] = [L[i], a[i], b[i]];
  if (Number.isNaN(l)) return NaN;
  const C2 = p * p + q * q;
  const C = Math.sqrt(C2);
  const C7 = C2 * C2 * C2 * C;
  // Reds and greens near grey count for more.
  const stretch = 1.5 - 0.5 * Math.sqrt(C7 / (C7 + TWENTY_FIVE_POW_7));
  const off = (l - 50) * (l - 50);
  const SL = 1 + (0.015 * off) / Math.sqrt(20 + off);
  const SC = 1 + 0.045 * C;
  const SH = 1 + 0.015 * C;
  const squared = (j: number): number => {
    const dL = (L[j] - l) / SL;
    const da = (a[j] - p) * stretch;
    const db = b[j] - q;
    const all = da * da + db * db;
    // Along the cell's own hue, and across it.
    const along = C < 1 ? 0 : (da * p + db * q) / C;
    const along2 = Math.min(all, along * along);
    return dL * dL + along2 / (SC * SC) + (all - along2) / (SH * SH);
  };
  const there = one < 0 ? NaN : squared(one);
  const beyond = other < 0 ? NaN : squared(other);
  if (Number.isNaN(there)) return Number.isNaN(beyond) ? 0 : beyond;
  return Number.isNaN(beyond) ? there : (there + beyond) / 2;
}
