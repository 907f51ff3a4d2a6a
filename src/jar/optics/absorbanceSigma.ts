import { KAPPA, KAPPA_UNCERTAINTY } from "./liquidOptics.ts";

/** Relative part of the uncertainty of an absorbance: tone curve, and spread over cameras. */
const TONE_SHARE = 0.02;
const CAMERA_SHARE = 0.03;

/** Least uncertainty of an absorbance per cm. */
const FLOOR = 0.0005;

/**
 * Standard uncertainty of an absorbance, per cm: tone, camera, kind of particle and a floor, in quadrature.
 * @param reading From the photo itself (scatter over columns), per cm; replaces the floor where it is larger.
 */
export function absorbanceSigma(absorbance: number, beta: number, reading = 0): number {
  return Math.hypot(
    TONE_SHARE * absorbance,
    CAMERA_SHARE * absorbance,
    KAPPA_UNCERTAINTY * KAPPA * beta,
    Math.max(FLOOR, reading),
  );
}
