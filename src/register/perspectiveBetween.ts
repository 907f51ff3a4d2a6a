import { fitHomographyRobust } from "../card/fitHomographyRobust.ts";
import { invert3, multiply3, type Matrix3 } from "../numeric/matrix3.ts";
import type { Point } from "../numeric/point.ts";
import { throughHomography } from "./sheetFrame.ts";

/** Perspective may shrink one corner of the frame against another by this factor: a slant of some 20 degrees near by. */
const MOST_FORESHORTENING = 2;

/**
 * The perspective of the after frame as the before frame sees it: what a plane photographed at another slant needs besides an
 * affine map.
 * @param from Matched key points of the before frame, mm. @param to The same in the after frame.
 * @param corners Of the after frame, mm.
 * @param tolerance mm; must take in the cockle.
 * @returns After mm to mm without that perspective, of the same scale at the middle of the matches, and how many of them agree;
 *   null where they fix none, or one that no camera gives.
 */
export function perspectiveBetween(
  from: readonly Point[],
  to: readonly Point[],
  corners: readonly Point[],
  tolerance: number,
): { readonly flatten: Matrix3; readonly inliers: number } | null {
  const fit = fitHomographyRobust(from, to, tolerance);
  if (fit === null) return null;
  const { inliers } = fit;
  const back = invert3(fit.H);
  const middle = [0, 1].map(
    (axis) => inliers.reduce((sum, i) => sum + to[i][axis], 0) / inliers.length,
  );
  // After to before = affine * [1 0 0; 0 1 0; p q 1] about the middle.
  const w = back[6] * middle[0] + back[7] * middle[1] + back[8];
  const [p, q] = [back[6] / w, back[7] / w];
  const toMiddle: Matrix3 = [1, 0, -middle[0], 0, 1, -middle[1], 0, 0, 1];
  const fromMiddle: Matrix3 = [1, 0, middle[0], 0, 1, middle[1], 0, 0, 1];
  const depths = corners.map(([x, y]) => 1 + p * (x - middle[0]) + q * (y - middle[1]));
  const nearest = Math.min(...depths);
  if (!(nearest > 0) || Math.max(...depths) / nearest > MOST_FORESHORTENING) return null;
  const flatten = multiply3(fromMiddle, multiply3([1, 0, 0, 0, 1, 0, p, q, 1], toMiddle));
  return { flatten, inliers: inliers.length };
}

/** Points interleaved x, y through a homography. */
export function pointsThrough(H: Matrix3, xy: Float64Array): Float64Array {
  const out = new Float64Array(xy.length);
  for (let i = 0; i < xy.length; i += 2)
    [out[i], out[i + 1]] = throughHomography(H, xy[i], xy[i + 1]);
  return out;
}
