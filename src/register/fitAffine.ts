import type { Affine } from "./affine.ts";

/** Rounds of fit and selection after the robust start. */
const ROUNDS = 4;

/**
 * Least-squares affine map of the selected pairs.
 * @param from x, y interleaved.
 * @param to x, y interleaved, one for each of `from`.
 * @param selected Indices of pairs.
 * @returns null when the points lie on one line, or are fewer than three.
 */
export function fitAffine(
  from: Float64Array,
  to: Float64Array,
  selected: ArrayLike<number>,
): Affine | null {
  const n = selected.length;
  let mx = 0;
  let my = 0;
  let mu = 0;
  let mv = 0;
  for (let k = 0; k < n; k++) {
    const i = 2 * selected[k];
    mx += from[i] / n;
    my += from[i + 1] / n;
    mu += to[i] / n;
    mv += to[i + 1] / n;
  }
  let xx = 0;
  let xy = 0;
  let yy = 0;
  let xu = 0;
  let yu = 0;
  let xv = 0;
  let yv = 0;
  for (let k = 0; k < n; k++) {
    const i = 2 * selected[k];
    const x = from[i] - mx;
    const y = from[i + 1] - my;
    const u = to[i] - mu;
    const v = to[i + 1] - mv;
    xx += x * x;
    xy += x * y;
    yy += y * y;
    xu += x * u;
    yu += y * u;
    xv += x * v;
    yv += y * v;
  }
  const determinant = xx * yy - xy * xy;
  if (n < 3 || !(determinant > 1e-9 * xx * yy)) return null;
  const a = (xu * yy - yu * xy) / determinant;
  const b = (yu * xx - xu * xy) / determinant;
  const c = (xv * yy - yv * xy) / determinant;
  const d = (yv * xx - xv * xy) / determinant;
  return { a, b, tx: mu - a * mx - b * my, c, d, ty: mv - c * mx - d * my };
}

/** Indices of the pairs whose `from` the map brings within `tolerance` (Euclidean, unit of `to`) of their `to`. */
export function agreeingPairs(
  map: Affine,
  from: Float64Array,
  to: Float64Array,
  tolerance: number,
): number[] {
  const agreeing: number[] = [];
  for (let i = 0; i < from.length; i += 2) {
    const ex = map.a * from[i] + map.b * from[i + 1] + map.tx - to[i];
    const ey = map.c * from[i] + map.d * from[i + 1] + map.ty - to[i + 1];
    if (ex * ex + ey * ey < tolerance * tolerance) agreeing.push(i / 2);
  }
  return agreeing;
}

export interface RefinedAffine {
  readonly affine: Affine;
  /** Indices of the pairs that agree with it. */
  readonly inliers: readonly number[];
}

/** Fits and re-selects in turn, from a robust start. null where too few pairs agree to fit anything. */
export function refineAffine(
  start: Affine,
  from: Float64Array,
  to: Float64Array,
  tolerance: number,
): RefinedAffine | null {
  let affine = start;
  for (let round = 0; round < ROUNDS; round++) {
    const fitted = fitAffine(from, to, agreeingPairs(affine, from, to, tolerance));
    if (fitted === null) return null;
    affine = fitted;
  }
  return { affine, inliers: agreeingPairs(affine, from, to, tolerance) };
}
