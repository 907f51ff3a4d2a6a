import type { LabPlanes } from "../change/differenceMap.ts";
import { sum3 } from "../change/congruent.ts";
import type { Matrix3 } from "../numeric/matrix3.ts";
import type { PlacedPair } from "./registrationEffect.ts";

/** Places nearer to each other than the spacing of the map's nodes are misplaced alike. */
const SHARED_MM = 6;

const NOTHING: Matrix3 = [0, 0, 0, 0, 0, 0, 0, 0, 0];

/**
 * Covariance of the mean Lab difference of an area that comes from the uncertainty of the map. Within a node's spacing all cells are
 * displaced alike: there the slopes of the picture, which on opposite sides of a drawing point opposite ways, are added before
 * they are squared. What remains is taken once as if each such block erred by itself and once as if the whole area were
 * displaced as one, and the larger counts: a map bridged over a gap errs alike over more than a block.
 * @param cells Of the area. @param weights What each cell of the planes counts in a mean.
 */
export function placeCovariance(
  pair: PlacedPair,
  sigmaMm: Float32Array,
  cells: Int32Array,
  weights: Float32Array,
): Matrix3 {
  const { before, after } = pair;
  const { width, mmPerCell } = pair;
  const side = Math.max(1, SHARED_MM / mmPerCell);
  const across = Math.ceil(width / side);
  /** L, a, b by x, then by y: sum of weight * sigma * slope. */
  const blocks = new Map<number, Float64Array>();
  let total = 0;
  for (const i of cells) {
    const row = Math.floor(i / width);
    const column = i - row * width;
    total += weights[i];
    const key = Math.floor(row / side) * across + Math.floor(column / side);
    let sum = blocks.get(key);
    if (sum === undefined) blocks.set(key, (sum = new Float64Array(6)));
    const scale = (weights[i] * sigmaMm[i]) / mmPerCell;
    const x = column > 0 && column < width - 1;
    const y = row > 0 && i + width < before[0].length;
    for (let c = 0; c < 3; c++) {
      if (x) sum[c] += scale * slope(before, after, c, i, 1);
      if (y) sum[3 + c] += scale * slope(before, after, c, i, width);
    }
  }
  if (!(total > 0)) return NOTHING;
  const whole = new Float64Array(6);
  let apart = NOTHING;
  for (const sum of blocks.values()) {
    for (let c = 0; c < 6; c++) whole[c] += sum[c];
    apart = sum3(apart, outer(sum, total));
  }
  const together = outer(whole, total);
  return trace(apart) > trace(together) ? apart : together;
}

/** Mean of both frames' slopes a cell, 0 where a neighbour has no data. */
function slope(before: LabPlanes, after: LabPlanes, c: number, i: number, step: number): number {
  const of = (plane: Float32Array): number => (plane[i + step] - plane[i - step]) / 2;
  return (of(before[c]) + of(after[c])) / 2 || 0;
}

function outer(s: Float64Array, total: number): Matrix3 {
  const at = (p: number, q: number): number =>
    (s[p] * s[q] + s[3 + p] * s[3 + q]) / (total * total);
  // prettier-ignore
  return [
    at(0, 0), at(0, 1), at(0, 2),
    at(1, 0), at(1, 1), at(1, 2),
    at(2, 0), at(2, 1), at(2, 2),
  ];
}

function trace(S: Matrix3): number {
  return S[0] + S[4] + S[8];
}
