import type { Grid } from "../grid/grid.ts";
import { mean } from "../numeric/statistics.ts";
import { alongDirection } from "./ridgeMap.ts";

/** How far to either side, and how finely, a line is looked at across. */
const REACH_MM = 4.5;
const STEP_MM = 0.25;
/** From here on lies what the line is compared with. */
const BESIDE_MM = 3;
/** Crest cells lie beside the true crest by up to this. */
const RECENTRE_MM = 0.75;

export interface LineProfile {
  /** Full width at half of the height, as the planes show it. */
  readonly widthMm: number;
  /** Height of each plane at the crest above its sides. */
  readonly heights: readonly number[];
}

/**
 * Mean section of a line across itself.
 * @param cells Crest of the line. @param direction Direction along it at each cell of the grid.
 * @param guide Plane that the width is read from; the line is high in it. NaN where there are no data.
 * @param planes Others read along the same section.
 * @returns null where too little of its sides is seen.
 */
export function lineProfile(
  cells: readonly number[],
  direction: Uint8Array,
  guide: Float32Array,
  planes: readonly Float32Array[],
  { width, height, mmPerCell: mm }: Grid,
): LineProfile | null {
  const steps = Math.round(REACH_MM / STEP_MM);
  const offsets = Array.from({ length: 2 * steps + 1 }, (_, k) => (k - steps) * STEP_MM);
  const all = [guide, ...planes];
  const sums = all.map(() => new Float64Array(offsets.length));
  const counts = new Float64Array(offsets.length);
  for (const cell of cells) {
    const [tx, ty] = alongDirection(direction[cell]);
    const x = cell % width;
    const y = Math.floor(cell / width);
    const placeAt = (offset: number): number => {
      const u = Math.round(x - (ty * offset) / mm);
      const v = Math.round(y + (tx * offset) / mm);
      return u < 0 || v < 0 || u >= width || v >= height ? -1 : v * width + u;
    };
    let centre = 0;
    let highest = guide[cell];
    for (let offset = -RECENTRE_MM; offset <= RECENTRE_MM; offset += STEP_MM) {
      const value = guide[placeAt(offset)];
      if (value > highest) [highest, centre] = [value, offset];
    }
    offsets.forEach((offset, k) => {
      const place = placeAt(centre + offset);
      if (place < 0 || Number.isNaN(guide[place])) return;
      counts[k]++;
      all.forEach((plane, j) => (sums[j][k] += plane[place]));
    });
  }
  const seen = cells.length / 4;
  const sections = sums.map((sum) =>
    sum.map((value, k) => (counts[k] >= seen ? value / counts[k] : NaN)),
  );
  const heights = sections.map((section) => {
    const beside = offsets
      .map((offset, k) => (Math.abs(offset) >= BESIDE_MM ? section[k] : NaN))
      .filter((value) => !Number.isNaN(value));
    return section[steps] - mean(beside);
  });
  const [crest] = heights;
  if (!(crest > 0)) return null;
  const half = sections[0][steps] - crest / 2;
  const halfWidth = (sign: 1 | -1): number => {
    for (let k = 1; k <= steps; k++) {
      const here = sections[0][steps + sign * k];
      if (Number.isNaN(here)) return NaN;
      if (here < half) {
        const before = sections[0][steps + sign * (k - 1)];
        return STEP_MM * (k - 1 + (before - half) / (before - here));
      }
    }
    return NaN;
  };
  const [left, right] = [halfWidth(-1), halfWidth(1)];
  // One side may be hidden: the line is then taken as even.
  const widthMm = Number.isNaN(left) ? 2 * right : Number.isNaN(right) ? 2 * left : left + right;
  return Number.isNaN(widthMm) ? null : { widthMm, heights: heights.slice(1) };
}
