import type { Random } from "../numeric/random.ts";
import type { Affine } from "./affine.ts";

/** What counts as agreement; lengths in the unit of the points. */
export interface RansacLimits {
  /** Largest error along each axis of an inlier. */
  readonly tolerance: number;
  /** Two matches closer than this don't fix a direction. */
  readonly leastDistance: number;
  /** A model that shrinks or grows beyond this factor, either way, is skipped. */
  readonly mostGrowth: number;
}

const MOST_ROUNDS = 2000;
/** After so many rounds the search ends once a good share agrees. */
const ROUNDS_BEFORE_EARLY_STOP = 300;
const GOOD_SHARE = 0.7;

export interface SimilarityFit {
  /** Turn, one scale, shift; no mirror. */
  readonly model: Affine;
  readonly inliers: number;
}

/**
 * Random sample consensus (Fischler & Bolles 1981) of a similarity without mirror.
 * @param from x, y interleaved. @param to One point for each of `from`.
 * @returns null when fewer than two pairs were given or no draw was usable.
 */
export function similarityRansac(
  from: Float64Array,
  to: Float64Array,
  limits: RansacLimits,
  random: Random,
): SimilarityFit | null {
  const count = from.length / 2;
  const { tolerance, leastDistance, mostGrowth } = limits;
  let best: SimilarityFit | null = null;
  for (let round = 0; count >= 2 && round < MOST_ROUNDS; round++) {
    if (round >= ROUNDS_BEFORE_EARLY_STOP && best !== null && best.inliers > GOOD_SHARE * count)
      break;
    const i = 2 * random.below(count);
    const j = 2 * random.below(count);
    const x = from[j] - from[i];
    const y = from[j + 1] - from[i + 1];
    const length2 = x * x + y * y;
    if (length2 < leastDistance * leastDistance) continue;
    const u = to[j] - to[i];
    const v = to[j + 1] - to[i + 1];
    const c = (x * u + y * v) / length2;
    const d = (x * v - y * u) / length2;
    const scale = Math.hypot(c, d);
    if (scale < 1 / mostGrowth || scale > mostGrowth) continue;
    const tx = to[i] - c * from[i] + d * from[i + 1];
    const ty = to[i + 1] - d * from[i] - c * from[i + 1];
    let inliers = 0;
    for (let k = 0; k < 2 * count; k += 2) {
      const ex = c * from[k] - d * from[k + 1] + tx - to[k];
      const ey = d * from[k] + c * from[k + 1] + ty - to[k + 1];
      if (ex < tolerance && ex > -tolerance && ey < tolerance && ey > -tolerance) inliers++;
    }
    if (best === null || inliers > best.inliers)
      best = { model: { a: c, b: -d, tx, c: d, d: c, ty }, inliers };
  }
  return best;
}
