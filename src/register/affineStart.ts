import { affineParts, type Affine, type AffineParts } from "./affine.ts";
import { coarseMap, type CoarseMap } from "./coarseMap.ts";
import { featurePicture } from "./featurePicture.ts";
import type { Frame } from "./frame.ts";
import { LEAST_INLIERS, LEAST_INLIER_SHARE, LEAST_SCALE, MOST_SCALE, MOST_SHEAR } from "./gates.ts";
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
}

interface Side {
  readonly frame: Frame;
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
  const coarse = coarseMap(featuresBefore, featuresAfter, seed);
  const { affine, inliers, matches } = coarse;
  if (affine === null || !agrees(coarse)) {
    const atAnyScale = coarseMap(featuresBefore, featuresAfter, seed, ANY_GROWTH);
    if (atAnyScale.affine !== null && agrees(atAnyScale))
      checkShape(affineParts(atAnyScale.affine), atAnyScale, input);
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
  checkShape(parts, coarse, input);
  return { affine, parts, inliers, matches };
}

function agrees({ inliers, matches }: CoarseMap): boolean {
  return inliers >= LEAST_INLIERS && inliers >= LEAST_INLIER_SHARE * matches;
}

function checkShape(
  { scaleX, scaleY, shear }: AffineParts,
  { scatterMm, shortSideMm }: CoarseMap,
  input: string | undefined,
): void {
  const inRange = (scale: number): boolean => scale >= LEAST_SCALE && scale <= MOST_SCALE;
  if (!inRange(scaleX) || !inRange(scaleY))
    throw registrationFailed(
      `Expected a sheet of nearly its size before; after it has ${percent(scaleX, 1)} of the width and ` +
        `${percent(scaleY, 1)} of the height (${percent(LEAST_SCALE)} to ${percent(MOST_SCALE)} is accepted).`,
      "Check the resolution of both scans, and give it where a file tells it wrong.",
      input,
    );
  // Waves longer than a small sheet shear it as a whole; the shorter ones beside them show in the scatter.
  const mostShear = MOST_SHEAR + scatterMm / (shortSideMm / 2);
  if (!(Math.abs(shear) <= mostShear))
    throw registrationFailed(
      `Expected the sheet's corners to stay square; between the scans they lean by ${percent(Math.abs(shear), 1)} ` +
        `(${percent(mostShear, 1)} is accepted).`,
      "Lay the sheet flat and scan again; where it was photographed at a slant, lay the card flat beside the sheet.",
      input,
    );
}
