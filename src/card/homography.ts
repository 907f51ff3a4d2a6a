import type { Point } from "../numeric/point.ts";
import { solveCholesky } from "../numeric/cholesky.ts";
import type { Matrix3 } from "../numeric/matrix3.ts";
import { multiply3 } from "../numeric/matrix3.ts";

/** Rounds in which each equation is divided by its own w: turns the algebraic error into pixels, near enough. */
const ROUNDS = 3;

/** Moves the centroid to the origin and scales the mean distance from it to the square root of 2 (Hartley 1997). */
interface Normalisation {
  readonly x: number;
  readonly y: number;
  readonly scale: number;
}

function normalisation(points: readonly Point[]): Normalisation {
  const n = points.length;
  let x = 0;
  let y = 0;
  for (const [px, py] of points) {
    x += px / n;
    y += py / n;
  }
  let distance = 0;
  for (const [px, py] of points) distance += Math.hypot(px - x, py - y) / n;
  return { x, y, scale: distance > 0 ? Math.SQRT2 / distance : 0 };
}

/**
 * The projective map that takes `from` to `to`: exact for four points, least squares in the distance at `to` for more.
 * Normalised direct linear transformation, the equations reweighted by their denominators.
 * @param from At least four points, no three of the first four on one line.
 * @param to One for each of `from`.
 * @returns Row-major 3 x 3 with the last element about 1; null where the points don't fix a map (too few, on one line, doubled).
 * @see Hartley, IEEE Trans. PAMI 19(6), 580-593 (1997).
 */
export function fitHomography(from: readonly Point[], to: readonly Point[]): Matrix3 | null {
  const n = from.length;
  if (n < 4 || to.length !== n) return null;
  const source = normalisation(from);
  const target = normalisation(to);
  if (source.scale === 0 || target.scale === 0) return null;

  const A = new Float64Array(64);
  const h = new Float64Array(8);
  const row = new Float64Array(8);
  const add = (value: number): void => {
    for (let i = 0; i < 8; i++) {
      if (row[i] === 0) continue;
      for (let j = 0; j <= i; j++) A[8 * i + j] += row[i] * row[j];
      sum[i] += row[i] * value;
    }
  };
  let sum = new Float64Array(8);
  for (let round = 0; round < (n > 4 ? ROUNDS : 1); round++) {
    A.fill(0);
    sum = new Float64Array(8);
    for (let k = 0; k < n; k++) {
      const x = (from[k][0] - source.x) * source.scale;
      const y = (from[k][1] - source.y) * source.scale;
      const u = (to[k][0] - target.x) * target.scale;
      const v = (to[k][1] - target.y) * target.scale;
      const w = round === 0 ? 1 : h[6] * x + h[7] * y + 1;
      if (!(Math.abs(w) > 1e-6)) return null;
      row.fill(0);
      row[0] = x / w;
      row[1] = y / w;
      row[2] = 1 / w;
      row[6] = (-u * x) / w;
      row[7] = (-u * y) / w;
      add(u / w);
      row.fill(0);
      row[3] = x / w;
      row[4] = y / w;
      row[5] = 1 / w;
      row[6] = (-v * x) / w;
      row[7] = (-v * y) / w;
      add(v / w);
    }
    if (!solveCholesky(A, sum)) return null;
    h.set(sum);
  }
  const denormaliseTarget: Matrix3 = [1 / target.scale, 0, target.x, 0, 1 / target.scale, target.y, 0, 0, 1]; // prettier-ignore
  const normaliseSource: Matrix3 = [source.scale, 0, -source.scale * source.x, 0, source.scale, -source.scale * source.y, 0, 0, 1]; // prettier-ignore
  const inner: Matrix3 = [h[0], h[1], h[2], h[3], h[4], h[5], h[6], h[7], 1];
  return multiply3(denormaliseTarget, multiply3(inner, normaliseSource));
}

/** The image of a point; not finite where the point lies on the map's horizon. */
export function applyHomography(H: Matrix3, [x, y]: Point): Point {
  const w = H[6] * x + H[7] * y + H[8];
  return [(H[0] * x + H[1] * y + H[2]) / w, (H[3] * x + H[4] * y + H[5]) / w];
}
