import { BAND_COUNT, BAND_FIRST_NM, BAND_STEP_NM } from "../../calibration/colourants.ts";
import { WHITE_D50 } from "../colour/whites.ts";
import {
  OBSERVER_AND_DAYLIGHT,
  OBSERVER_FIRST_NM,
  OBSERVER_STEP_NM,
} from "../../calibration/observer-and-daylight.ts";
import { daylightD50 } from "../colour/spectrum.ts";
import type { Triple } from "../numeric/triple.ts";
import { invert3, type Matrix3, multiply3Vector } from "../numeric/matrix3.ts";

/**
 * XYZ (D50, white Y = 1) to the broad positive bands r, g, b in which print is read: SOFT times XYZ to linear sRGB, the latter as commonly
 * tabulated for D50 (the bands of `softBands` to three digits; what the plates were tried with). Linear sRGB goes negative on solids of blue and yellow; these bands do not, so that their logarithm can be taken.
 */
// prettier-ignore
export const XYZ_D50_TO_BANDS: Matrix3 = [
   1.49061, -0.30461, -0.16076,
  -0.24539,  1.09975,  0.16585,
  -0.14090,  0.35146,  0.95055,
];

const BANDS_TO_XYZ_D50 = invert3(XYZ_D50_TO_BANDS);

/** Below this share of light a band is noise and flare. */
export const SMALLEST_BAND = 0.003;

/** The bands of an XYZ. Not clipped. */
export function bandsOfXyz(xyz: Triple): Triple {
  return multiply3Vector(XYZ_D50_TO_BANDS, xyz);
}

/** The inverse of {@link bandsOfXyz}. */
export function xyzOfBands(bands: Triple): Triple {
  return multiply3Vector(BANDS_TO_XYZ_D50, bands);
}

/**
 * Weights of the bands over 400 to 700 nm by 10: observer x D50 mixed by the same matrix.
 * Three rows of 31, row-major, each summing to 1, since a perfect white has bands 1 1 1.
 */
export const SPECTRAL_BAND_WEIGHTS: Float64Array = (() => {
  const light = daylightD50();
  const xyz = new Float64Array(3 * BAND_COUNT);
  const sums = [0, 0, 0];
  for (let i = 0; i < BAND_COUNT; i++) {
    const row = (BAND_FIRST_NM + i * BAND_STEP_NM - OBSERVER_FIRST_NM) / OBSERVER_STEP_NM;
    for (let c = 0; c < 3; c++) {
      xyz[3 * i + c] = light[row] * OBSERVER_AND_DAYLIGHT[row][c];
      sums[c] += xyz[3 * i + c];
    }
  }
  const weights = new Float64Array(3 * BAND_COUNT);
  for (let i = 0; i < BAND_COUNT; i++) {
    const [X, Y, Z] = WHITE_D50.map((white, c) => (xyz[3 * i + c] * white) / sums[c]);
    const bands = bandsOfXyz([X, Y, Z]);
    for (let c = 0; c < 3; c++) weights[c * BAND_COUNT + i] = bands[c];
  }
  return weights;
})();
