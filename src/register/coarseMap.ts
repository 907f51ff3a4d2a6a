import { seededRandom } from "../numeric/random.ts";
import type { Affine } from "./affine.ts";
import { refineAffine } from "./fitAffine.ts";
import { matchDescriptors } from "./matchDescriptors.ts";
import type { SheetFeatures } from "./sheetFeatures.ts";
import { similarityRansac } from "./similarityRansac.ts";

/** Matches agree within this: it must take in the cockle of the paper (8 px at 96 dpi). */
export const AGREEMENT_MM = 2.1;

/** Two matches closer than this don't fix the turn (100 px at 96 dpi). */
const LEAST_DRAW_MM = 26;

/** Scale of the similarity that is looked for, either way. */
const MOST_GROWTH = 1.25;

export interface CoarseMap {
  /** mm to mm; null where no turn, scale and shift brings any matches together. */
  readonly affine: Affine | null;
  readonly matches: number;
  readonly inliers: number;
  /** Root mean square of the inliers' distance from the affine map, mm: mostly cockle. */
  readonly scatterMm: number;
  /** Shorter side of the box round the inliers in the before frame, mm. */
  readonly shortSideMm: number;
}

/**
 * The affine map that most matches agree on.
 * @param mostGrowth Largest change of scale that is looked for, either way. Default MOST_GROWTH.
 */
export function coarseMap(
  before: SheetFeatures,
  after: SheetFeatures,
  seed: number,
  mostGrowth = MOST_GROWTH,
): CoarseMap {
  return mapOfMatches(matchedPlaces(before, after), seed, mostGrowth);
}

/** Places of key points that look alike, x and y interleaved, mm of each frame. */
export interface MatchedPlaces {
  readonly from: Float64Array;
  readonly to: Float64Array;
}

export function matchedPlaces(before: SheetFeatures, after: SheetFeatures): MatchedPlaces {
  const partners = matchDescriptors(before.descriptors, after.descriptors);
  const from: number[] = [];
  const to: number[] = [];
  partners.forEach((partner, i) => {
    if (partner < 0) return;
    from.push(before.xy[2 * i], before.xy[2 * i + 1]);
    to.push(after.xy[2 * partner], after.xy[2 * partner + 1]);
  });
  return { from: Float64Array.from(from), to: Float64Array.from(to) };
}

/** `coarseMap` of places that were matched already. */
export function mapOfMatches(
  { from, to }: MatchedPlaces,
  seed: number,
  mostGrowth = MOST_GROWTH,
): CoarseMap {
  const matches = from.length / 2;
  const start = similarityRansac(
    from,
    to,
    { tolerance: AGREEMENT_MM, leastDistance: LEAST_DRAW_MM, mostGrowth },
    seededRandom(seed),
  );
  const refined = start && refineAffine(start.model, from, to, AGREEMENT_MM);
  if (refined === null)
    return { affine: null, matches, inliers: 0, scatterMm: NaN, shortSideMm: NaN };
  const { affine, inliers } = refined;
  let squares = 0;
  const box = [Infinity, Infinity, -Infinity, -Infinity];
  for (const k of inliers) {
    const [x, y] = [from[2 * k], from[2 * k + 1]];
    squares += (affine.a * x + affine.b * y + affine.tx - to[2 * k]) ** 2;
    squares += (affine.c * x + affine.d * y + affine.ty - to[2 * k + 1]) ** 2;
    box[0] = Math.min(box[0], x);
    box[1] = Math.min(box[1], y);
    box[2] = Math.max(box[2], x);
    box[3] = Math.max(box[3], y);
  }
  return {
    affine,
    matches,
    inliers: inliers.length,
    scatterMm: Math.sqrt(squares / inliers.length),
    shortSideMm: Math.min(box[2] - box[0], box[3] - box[1]),
  };
}
