import { affineParts, type Affine, type AffineParts } from "./affine.ts";
import type { Matrix3 } from "../numeric/matrix3.ts";
import type { Point } from "../numeric/point.ts";
import {
  AGREEMENT_MM,
  coarseMap,
  type CoarseMap,
  mapOfMatches,
  type MatchedPlaces,
  matchedPlaces,
} from "./coarseMap.ts";
import { perspectiveBetween, pointsThrough } from "./perspectiveBetween.ts";
import { featurePicture } from "./featurePicture.ts";
import type { SheetFrame } from "./sheetFrame.ts";
import {
  FLAT_INLIER_SHARE,
  LEAST_INLIERS,
  LEAST_INLIER_SHARE,
  LEAST_SCALE,
  MOST_SCALE,
  MOST_SHEAR,
  MOST_SLANT_SCALE,
  MOST_SLANT_SHEAR,
  PERSPECTIVE_GAIN,
} from "./gates.ts";
import { mirroredPicture, mirroredRegion } from "./mirroredPicture.ts";
import { percent, registrationFailed } from "./registrationFailed.ts";
import { sheetFeatures } from "./sheetFeatures.ts";
import type { SheetRegion } from "./sheetRegion.ts";

/** A wrong resolution in a file makes the sheet look this much larger or smaller, at most. */
const ANY_GROWTH = 8;

export interface AffineStart {
  readonly affine: Affine;
  readonly parts: AffineParts;
  readonly inliers: number;
  readonly matches: number;
  /** After mm to the mm that the affine map leads to; null where the frames differ by no perspective. */
  readonly flatten: Matrix3 | null;
}

interface Side {
  readonly frame: SheetFrame;
  readonly region: SheetRegion;
}

/**
 * Features of both frames, matched and brought under one affine map.
 * @throws {LastrinseError} `registration-failed`: blank, mirrored, unrelated, or too far from the sheet's size and shape.
 */
export async function affineStart(
  before: Side,
  after: Side,
  seed: number,
  input: string | undefined,
): Promise<AffineStart> {
  const [pictureBefore, pictureAfter] = await Promise.all([
    featurePicture(before.frame),
    featurePicture(after.frame),
  ]);
  const [featuresBefore, featuresAfter] = await Promise.all([
    sheetFeatures(pictureBefore, before.region, before.frame.image.features),
    sheetFeatures(pictureAfter, after.region, after.frame.image.features),
  ]);
  for (const [name, { count }] of [
    ["before", featuresBefore],
    ["after", featuresAfter],
  ] as const)
    if (count < LEAST_INLIERS)
      throw registrationFailed(
        `Expected a printed sheet in the ${name} scan; found ${count} details to hold on to, and ${LEAST_INLIERS} are ` +
          "needed. The sheet is blank, out of focus or not in the frame.",
        `Check that the ${name} scan shows the printed side of the whole sheet in focus.`,
        input,
      );
  const places = matchedPlaces(featuresBefore, featuresAfter);
  const asScans = mapOfMatches(places, seed);
  const flatten = perspectiveOf(places, asScans, after.frame);
  const coarse =
    flatten === null
      ? asScans
      : mapOfMatches({ from: places.from, to: pointsThrough(flatten, places.to) }, seed);
  const { affine, inliers, matches } = coarse;
  if (affine === null || !agrees(coarse)) {
    const atAnyScale = coarseMap(featuresBefore, featuresAfter, seed, ANY_GROWTH);
    if (atAnyScale.affine !== null && agrees(atAnyScale))
      checkShape(affineParts(atAnyScale.affine), atAnyScale, SCANS, input);
    const mirror = await sheetFeatures(
      mirroredPicture(pictureAfter),
      mirroredRegion(after.region, pictureAfter),
    );
    if (agrees(coarseMap(featuresBefore, mirror, seed)))
      throw registrationFailed(
        "Expected both scans the same way round; the after scan is mirrored.",
        "Switch mirroring off in the scanner program and scan again, or flip the after file.",
        input,
      );
    throw registrationFailed(
      `Expected two scans of one sheet; of ${matches} details that look alike only ${inliers} lie in one arrangement ` +
        `(at least ${LEAST_INLIERS} and ${percent(LEAST_INLIER_SHARE)} are needed).`,
      "Check that both files show the same side of the same sheet, and most of it.",
      input,
    );
  }
  const parts = affineParts(affine);
  checkShape(parts, coarse, flatten === null ? SCANS : PHOTOGRAPHS, input);
  return { affine, parts, inliers, matches, flatten };
}

/** The perspective that brings clearly more matches together than an affine map does, or null. */
function perspectiveOf(
  { from, to }: MatchedPlaces,
  { inliers, matches }: CoarseMap,
  { left, top, widthMm, heightMm }: SheetFrame,
): Matrix3 | null {
  if (matches < LEAST_INLIERS || inliers > FLAT_INLIER_SHARE * matches) return null;
  const points = (xy: Float64Array): Point[] =>
    Array.from({ length: xy.length / 2 }, (_, i) => [xy[2 * i], xy[2 * i + 1]]);
  const [right, bottom] = [left + widthMm, top + heightMm];
  const found = perspectiveBetween(
    points(from),
    points(to),
    [
      [left, top],
      [right, top],
      [right, bottom],
      [left, bottom],
    ],
    AGREEMENT_MM,
  );
  const enough = Math.max(LEAST_INLIERS, PERSPECTIVE_GAIN * inliers, LEAST_INLIER_SHARE * matches);
  return found !== null && found.inliers >= enough ? found.flatten : null;
}

/** What is taken for one sheet's shape. */
interface Shape {
  readonly leastScale: number;
  readonly mostScale: number;
  readonly mostShear: number;
}

const SCANS: Shape = { leastScale: LEAST_SCALE, mostScale: MOST_SCALE, mostShear: MOST_SHEAR };
const PHOTOGRAPHS: Shape = {
  leastScale: 1 / MOST_SLANT_SCALE,
  mostScale: MOST_SLANT_SCALE,
  mostShear: MOST_SLANT_SHEAR,
};

function agrees({ inliers, matches }: CoarseMap): boolean {
  return inliers >= LEAST_INLIERS && inliers >= LEAST_INLIER_SHARE * matches;
}

function checkShape(
  { scaleX, scaleY, shear }: AffineParts,
  { scatterMm, shortSideMm }: CoarseMap,
  { leastScale, mostScale, mostShear: shearOfShape }: Shape,
  input: string | undefined,
): void {
  const inRange = (scale: number): boolean => scale >= leastScale && scale <= mostScale;
  if (!inRange(scaleX) || !inRange(scaleY))
    throw registrationFailed(
      `Expected a sheet of nearly its size before; after it has ${percent(scaleX, 1)} of the width and ` +
        `${percent(scaleY, 1)} of the height (${percent(leastScale)} to ${percent(mostScale)} is accepted).`,
      "Check the resolution of both scans, and give it where a file tells it wrong.",
      input,
    );
  // Waves longer than a small sheet shear it as a whole; the shorter ones beside them show in the scatter.
  const mostShear = shearOfShape + scatterMm / (shortSideMm / 2);
  if (!(Math.abs(shear) <= mostShear))
    throw registrationFailed(
      `Expected the sheet's corners to stay square; between the scans they lean by ${percent(Math.abs(shear), 1)} ` +
        `(${percent(mostShear, 1)} is accepted).`,
      "Lay the sheet flat and scan again; where it was photographed at a slant, lay the card flat beside the sheet.",
      input,
    );
}
