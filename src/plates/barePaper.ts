import type { Triple } from "../numeric/triple.ts";
import { quantile } from "../numeric/statistics.ts";
import type { PlateCells } from "./plateCells.ts";

/** Bare paper of a sheet: which cells, or that there is too little of it to be believed. */
export interface BarePaper {
  /** ln of the lightest bands: the 99.95 % quantile. */
  readonly lightest: Triple;
  /** Share of the cells that look bare. */
  readonly share: number;
  /** Indices of the cells that speak for the paper; empty where bare paper is not believed. */
  readonly cells: Int32Array;
}

const LIGHTEST_SHARE = 0.9995;
const ROUNDS = 4;
/** How much darker than the lightest, and how far from grey in that: at first, and in every further round. */
const FIRST = { darker: 0.3, coloured: 0.16 };
const FURTHER = { darker: 0.45, coloured: 0.22 };
const MAD_TO_SD = 1.48;
const SD_FLOOR = 0.012;
const SD_CEILING = 0.06;
const WITHIN_SDS = 4;
/** On art printed to the edges 1 to 8 % of the cells look bare and carry a tint. */
const SMALLEST_SHARE = 0.04;
const SMOOTH = 0.15;
const ENOUGH_SMOOTH = 200;

/** Finds the bare paper of the sheet before washing. */
export function findBarePaper({ before, spread }: PlateCells): BarePaper {
  const n = spread.length;
  const band = (c: number): Float64Array => Float64Array.from({ length: n }, (_, i) => before[3 * i + c]); // prettier-ignore
  const [r, g, b] = [0, 1, 2].map((c) => quantile(band(c), LIGHTEST_SHARE));
  const lightest: Triple = [r, g, b];
  const within = (i: number, limit: typeof FIRST): boolean => {
    const [x, y, z] = [r - before[3 * i], g - before[3 * i + 1], b - before[3 * i + 2]];
    const mean = (x + y + z) / 3;
    return (
      Math.max(x, y, z) < limit.darker &&
      Math.max(Math.abs(x - mean), Math.abs(y - mean), Math.abs(z - mean)) < limit.coloured
    );
  };
  const all = Int32Array.from({ length: n }, (_, i) => i);
  const candidates = all.filter((i) => within(i, FURTHER));
  let bare = all.filter((i) => within(i, FIRST));
  for (let round = 0; round < ROUNDS && bare.length > 0; round++) {
    const limits = [0, 1, 2].map((c) => {
      const values = Float64Array.from(bare, (i) => before[3 * i + c]);
      const middle = quantile(values, 0.5);
      const mad = quantile(values.map((value) => Math.abs(value - middle)), 0.5); // prettier-ignore
      return { middle, reach: WITHIN_SDS * Math.min(MAD_TO_SD * mad + SD_FLOOR, SD_CEILING) };
    });
    bare = candidates.filter((i) =>
      limits.every(({ middle, reach }, c) => Math.abs(before[3 * i + c] - middle) < reach),
    );
  }
  const share = n === 0 ? 0 : bare.length / n;
  if (share < SMALLEST_SHARE) return { lightest, share, cells: new Int32Array(0) };
  const smooth = bare.filter((i) => spread[i] < SMOOTH);
  return { lightest, share, cells: smooth.length >= ENOUGH_SMOOTH ? smooth : bare };
}
