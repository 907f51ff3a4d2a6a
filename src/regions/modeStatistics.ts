import type { Triple } from "../numeric/triple.ts";
import type { LabImage } from "../grid/labImage.ts";

/** How the cells of one colour lie on the sheet. */
export interface ModeStatistics {
  /** CIELAB D50. */
  readonly lab: Triple;
  readonly cells: number;
  /** Cells within 10 mm of the sheet's edge. */
  readonly rimCells: number;
  /**
   * Per colour: how sharp the common border is. 1 = the whole step between the two colours happens within 1.2 mm, as at
   * a printed edge; a stain that fades out has 0.1 to 0.4. NaN where they do not touch.
   */
  readonly sharpness: readonly number[];
}

const RIM_MM = 10;
/** Half the way over which a border is looked at. */
const ACROSS_MM = 0.6;

/**
 * Statistics of each colour of a segmented sheet.
 * @param image Low-passed, edges not sharpened.
 * @param labels Label k + 1 for the k-th colour.
 * @param mask 1 on the sheet.
 */
export function modeStatistics(
  image: LabImage,
  labels: Uint8Array,
  mask: Uint8Array,
  colours: readonly Triple[],
): ModeStatistics[] {
  const { width, height, L, a, b } = image;
  const n = colours.length + 1;
  const cells = new Float64Array(n);
  const rimCells = new Float64Array(n);
  const jumps = new Float64Array(n * n);
  const borders = new Float64Array(n * n);
  const rim = Math.max(1, Math.round(RIM_MM / image.mmPerCell));
  // From the border between two cells to the centre of the cell looked at.
  const across = Math.max(1, Math.round(ACROSS_MM / image.mmPerCell + 0.5));

  const look = (i: number, j: number, before: number, after: number): void => {
    const d = Math.hypot(L[after] - L[before], a[after] - a[before], b[after] - b[before]);
    if (Number.isNaN(d)) return;
    const pair = Math.min(labels[i], labels[j]) * n + Math.max(labels[i], labels[j]);
    jumps[pair] += d;
    borders[pair]++;
  };
  for (let y = 0; y < height; y++) {
    const row = y * width;
    for (let x = 0; x < width; x++) {
      const i = row + x;
      const label = labels[i];
      if (label === 0) continue;
      cells[label]++;
      const inside =
        x >= rim &&
        x + rim < width &&
        y >= rim &&
        y + rim < height &&
        mask[i - rim] === 1 &&
        mask[i + rim] === 1 &&
        mask[i - rim * width] === 1 &&
        mask[i + rim * width] === 1;
      if (!inside) rimCells[label]++;
      if (x < width - 1 && labels[i + 1] !== label && labels[i + 1] !== 0) {
        const before = row + Math.max(0, x + 1 - across);
        const after = row + Math.min(width - 1, x + across);
        look(i, i + 1, before, after);
      }
      if (y < height - 1 && labels[i + width] !== label && labels[i + width] !== 0) {
        const before = Math.max(0, y + 1 - across) * width + x;
        const after = Math.min(height - 1, y + across) * width + x;
        look(i, i + width, before, after);
      }
    }
  }
  return colours.map((lab, k) => ({
    lab,
    cells: cells[k + 1],
    rimCells: rimCells[k + 1],
    sharpness: colours.map((other, m) => {
      const pair = (Math.min(k, m) + 1) * n + Math.max(k, m) + 1;
      const step = Math.hypot(lab[0] - other[0], lab[1] - other[1], lab[2] - other[2]);
      return jumps[pair] / borders[pair] / step;
    }),
  }));
}
