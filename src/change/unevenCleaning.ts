import { differenceCoordinates } from "../calibrate/differenceCoordinates.ts";
import { multiply3Vector } from "../numeric/matrix3.ts";
import { mean, median, quantile } from "../numeric/statistics.ts";
import type { ChangeView } from "./changeView.ts";
import { mapTriple } from "../numeric/mapTriple.ts";

/** Blocks over which the change is averaged, halved as a chessboard of fields. */
const BLOCK_MM = 6;
const FIELDS = 4;
/** Each half of a block needs this share of its cells. */
const LEAST_FILLING = 0.3;
/** Fewer blocks show no spread. */
const LEAST_BLOCKS = 12;
/** Places further than this in CIELAB from the usual paper before washing are stained or tinted: they may come clean otherwise. */
const ALIKE = 5;
/** Cells from which the usual paper is taken. */
const SAMPLES = 20_000;
/** Tenth and ninetieth percentile of a normal curve lie so many deviations apart. */
const TENTHS_APART = 2.563;
/** A floor of 95 % in deviations. */
const FLOOR_DEVIATIONS = 1.96;

/**
 * How unevenly the paper came clean: standard deviation, in dE00, of the change from place to place of the bare paper, less what noise and
 * the scanner's light explain. It is taken from the distance between the tenth that changed least and the tenth that changed most, so that a few
 * spots don't make it. Only paper that was alike before is looked at.
 * @param cells Bare paper, at least 1 mm from print and rim.
 * @param floor dE00 that the change of a place may have by chance, 95 of 100 times: the floor of the paper area.
 * @returns dE00 (one standard deviation), 0 where nothing is left to explain; null with too little paper to tell.
 */
export function unevenCleaning(view: ChangeView, cells: Int32Array, floor: number): number | null {
  const { before, after, width, mmPerCell } = view;
  const usual = mapTriple(before, (plane) => medianAt(plane, cells));
  const side = BLOCK_MM / mmPerCell;
  const field = side / FIELDS;
  const across = Math.ceil(width / side);
  // Sums of the change, and count, of the two halves of each block.
  const blocks = new Map<number, Float64Array>();
  for (const cell of cells) {
    const apart = Math.hypot(
      before[0][cell] - usual[0],
      before[1][cell] - usual[1],
      before[2][cell] - usual[2],
    );
    if (!(apart <= ALIKE) || Number.isNaN(after[0][cell])) continue;
    const row = Math.floor(cell / width);
    const column = cell - row * width;
    const key = Math.floor(row / side) * across + Math.floor(column / side);
    let sums = blocks.get(key);
    if (sums === undefined) blocks.set(key, (sums = new Float64Array(8)));
    const half = (Math.floor(row / field) + Math.floor(column / field)) % 2 === 0 ? 0 : 4;
    for (let c = 0; c < 3; c++) sums[half + c] += after[c][cell] - before[c][cell];
    sums[half + 3]++;
  }
  const least = (LEAST_FILLING * side * side) / 2;
  const judged = [...blocks.values()].filter((sums) => sums[3] >= least && sums[7] >= least);
  if (judged.length < LEAST_BLOCKS) return null;
  const W = differenceCoordinates(usual);
  const halves = judged.map((sums) =>
    [0, 4].map((from) =>
      multiply3Vector(W, [
        sums[from] / sums[from + 3],
        sums[from + 1] / sums[from + 3],
        sums[from + 2] / sums[from + 3],
      ]),
    ),
  );
  let square = 0;
  for (let c = 0; c < 3; c++) {
    const changes = halves.map(([one, other]) => (one[c] + other[c]) / 2);
    // The mean of two halves has a quarter of the variance of their difference.
    const noise = mean(halves.map(([one, other]) => (one[c] - other[c]) ** 2)) / 4;
    square += ((quantile(changes, 0.9) - quantile(changes, 0.1)) / TENTHS_APART) ** 2 - noise;
  }
  return Math.sqrt(Math.max(0, square - (floor / FLOOR_DEVIATIONS) ** 2));
}

function medianAt(plane: Float32Array, cells: Int32Array): number {
  const stride = Math.ceil(cells.length / SAMPLES);
  return median(
    Array.from(
      cells.filter((_, k) => k % stride === 0),
      (cell) => plane[cell],
    ),
  );
}
