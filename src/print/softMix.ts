import { type Matrix3, multiply3Vector } from "../numeric/matrix3.ts";
import type { Triple } from "../numeric/triple.ts";

/**
 * Mixes linear sRGB back into three broad bands: mean inverse colour matrix of 12 camera and light pairs, rows sum to 1. Linear
 * sRGB itself is the wrong space for absorbance, because the camera's colour matrix gives it negative lobes.
 */
// prettier-ignore
export const SOFT: Matrix3 = [
  0.58, 0.34, 0.08,
  0.14, 0.71, 0.15,
  0.03, 0.29, 0.68,
];

/** Broad bands of a linear sRGB triple that was divided by the same photo's white. */
export function softMix(linear: Triple): Triple {
  return multiply3Vector(SOFT, linear);
}
