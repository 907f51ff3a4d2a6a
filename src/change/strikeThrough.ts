import type { Grid } from "../grid/grid.ts";
import { mean, standardDeviation } from "../numeric/statistics.ts";

/** A plane of figures on a grid over one side of the sheet; NaN where there is none. */
export interface SideMap extends Pick<Grid, "width" | "height"> {
  readonly values: Float32Array;
}

export interface StrikeThrough {
  /** Pearson correlation of the mirrored recto with the change of the verso, where they lie best; -1..1. */
  readonly correlation: number;
  /** Deviations by which it stands above the correlations of the same two maps laid wrongly. */
  readonly deviations: number;
  /** The picture of the recto shows on the verso more than before. */
  readonly shown: boolean;
  /** Cells by which the verso lies to the right of and below the mirrored recto. */
  readonly shift: readonly [number, number];
}

/** How far the two sides may lie apart, as a share of each side: they were scanned and cut by hand. */
const NEAR_SHARE = 0.04;
/** Laid wrongly from here on: further than the picture resembles itself. */
const FAR_SHARE = 0.15;
/** Places of each axis at which the maps are laid wrongly. */
const WRONG_STEPS = 6;
/** Least deviations: the best of up to 100 near shifts exceeds 3.5 by chance in 2 of 100 sheets. */
const LEAST_DEVIATIONS = 4.5;
/** Less than this explains less than a hundredth of the change. */
const LEAST_CORRELATION = 0.1;
/** Least share of the grid that both sides show, in place and laid wrongly (where half by half remains at most). */
const LEAST_OVERLAP = 0.3;
const LEAST_FAR_OVERLAP = 0.08;
/** Fewer wrong correlations tell nothing of their scatter. */
const FEWEST_WRONG = 20;

/**
 * Whether the picture of the recto came through to the verso: correlates the mirrored recto with the change of the verso and asks whether
 * they fit better in register than out of it (a correlation in place is no proof, since both maps vary slowly).
 * Not yet connected: it is measured when both faces of a sheet are given.
 * @param recto What could come through: darkness of the recto (100 - L*) before, or its ink.
 * @param versoChange Darkening of the verso, L* before less L* after, on a grid of the same spacing; its columns run as the verso is seen.
 * Take the residual change (`coarseResidual`, its sign turned): margins and pictures of both sides lie alike, and what washing did to them
 * must be taken off first.
 * @returns null where the two sides share too little.
 */
export function strikeThrough(recto: SideMap, versoChange: SideMap): StrikeThrough | null {
  const { width, height } = recto;
  if (versoChange.width !== width || versoChange.height !== height)
    throw new RangeError(
      `Expected both sides on grids of ${width} x ${height}, received ${versoChange.width} x ${versoChange.height}.`,
    );
  const mirrored = recto.values.map(
    (_, i) => recto.values[i - (i % width) + width - 1 - (i % width)],
  );
  const at = (dx: number, dy: number, least: number): number =>
    correlationAt(mirrored, versoChange.values, recto, [dx, dy], least * width * height);
  const nearX = Math.ceil(NEAR_SHARE * width);
  const nearY = Math.ceil(NEAR_SHARE * height);
  let best = -Infinity;
  let shift: readonly [number, number] = [0, 0];
  for (let dy = -nearY; dy <= nearY; dy++)
    for (let dx = -nearX; dx <= nearX; dx++) {
      const correlation = at(dx, dy, LEAST_OVERLAP);
      if (correlation > best) [best, shift] = [correlation, [dx, dy]];
    }
  const wrong: number[] = [];
  for (let j = -WRONG_STEPS; j <= WRONG_STEPS; j++)
    for (let k = -WRONG_STEPS; k <= WRONG_STEPS; k++) {
      const [x, y] = [(0.5 * j) / WRONG_STEPS, (0.5 * k) / WRONG_STEPS];
      if (Math.max(Math.abs(x), Math.abs(y)) < FAR_SHARE) continue;
      const correlation = at(Math.round(x * width), Math.round(y * height), LEAST_FAR_OVERLAP);
      if (correlation > -Infinity) wrong.push(correlation);
    }
  if (best === -Infinity || wrong.length < FEWEST_WRONG) return null;
  const deviations = (best - mean(wrong)) / standardDeviation(wrong);
  return {
    correlation: best,
    deviations,
    shown: best >= LEAST_CORRELATION && deviations >= LEAST_DEVIATIONS,
    shift,
  };
}

/** Pearson correlation of the overlap; -Infinity where it is too small or one map is constant there. */
function correlationAt(
  one: Float32Array,
  other: Float32Array,
  { width, height }: SideMap,
  [dx, dy]: readonly [number, number],
  least: number,
): number {
  let n = 0;
  let sa = 0;
  let sb = 0;
  let saa = 0;
  let sbb = 0;
  let sab = 0;
  for (let y = Math.max(0, -dy); y < Math.min(height, height - dy); y++)
    for (let x = Math.max(0, -dx); x < Math.min(width, width - dx); x++) {
      const a = one[y * width + x];
      const b = other[(y + dy) * width + x + dx];
      if (Number.isNaN(a) || Number.isNaN(b)) continue;
      n++;
      sa += a;
      sb += b;
      saa += a * a;
      sbb += b * b;
      sab += a * b;
    }
  if (n < Math.max(3, least)) return -Infinity;
  const va = saa - (sa * sa) / n;
  const vb = sbb - (sb * sb) / n;
  return va > 0 && vb > 0 ? (sab - (sa * sb) / n) / Math.sqrt(va * vb) : -Infinity;
}
