import {
  OBSERVER_AND_DAYLIGHT,
  OBSERVER_FIRST_NM,
  OBSERVER_STEP_NM,
} from "../../calibration/observer-and-daylight.ts";
import type { Triple } from "../numeric/triple.ts";
import { WHITE_D50 } from "./whites.ts";

/** The 36 wavelengths of the summation: 380 to 730 nm by 10. */
const FIRST_NM = 380;
const STEP_NM = 10;
const COUNT = 36;

/** 400 to 700 nm by 10: the other grid in use. */
const SHORT_FIRST_NM = 400;
const SHORT_COUNT = 31;

/** Chromaticity of CIE illuminant D50, 2 degree, as CIE 15 prints it. */
const D50_X = 0.34567;
const D50_Y = 0.3585;

/**
 * Relative spectral power of CIE daylight D50 from its chromaticity, by the daylight formula of CIE 15: S = S0 + M1 S1 + M2 S2.
 * @returns One value a row of the observer table, 380 to 750 nm by 5, about 100 at 560 nm.
 */
export function daylightD50(): Float64Array {
  const m = 0.0241 + 0.2562 * D50_X - 0.7341 * D50_Y;
  const M1 = (-1.3515 - 1.7703 * D50_X + 5.9114 * D50_Y) / m;
  const M2 = (0.03 - 31.4424 * D50_X + 30.0717 * D50_Y) / m;
  return Float64Array.from(OBSERVER_AND_DAYLIGHT, ([, , , S0, S1, S2]) => S0 + M1 * S1 + M2 * S2);
}

/** Weights of X, Y, Z at the 36 wavelengths; each column sums to the white of this product. */
const WEIGHTS: Float64Array = (() => {
  const light = daylightD50();
  const weights = new Float64Array(3 * COUNT);
  const sums = [0, 0, 0];
  for (let i = 0; i < COUNT; i++) {
    const row = (FIRST_NM + i * STEP_NM - OBSERVER_FIRST_NM) / OBSERVER_STEP_NM;
    for (let c = 0; c < 3; c++) {
      weights[3 * i + c] = light[row] * OBSERVER_AND_DAYLIGHT[row][c];
      sums[c] += weights[3 * i + c];
    }
  }
  for (let i = 0; i < weights.length; i++) weights[i] *= WHITE_D50[i % 3] / sums[i % 3];
  return weights;
})();

/**
 * XYZ under D50 of a reflectance: plain sum of reflectance x D50 x observer at 380 to 730 nm by 10, scaled so that the perfect
 * diffuser gives exactly the white of this product in X, Y and Z.
 * @param reflectance 36 values for 380 to 730 nm by 10, or 31 for 400 to 700 nm by 10 (the end values are then held to 380
 * and 730 nm). 0..1; above 1 for a fluorescing sample.
 * @returns X, Y, Z with Y = 1 for the perfect diffuser. 2 degree observer. NaN in gives NaN out.
 * @throws {RangeError} Any other number of values.
 * @see CIE 15; the abridged sum agrees with the 5 nm sum to about 0.1 in Lab for smooth spectra.
 */
export function reflectanceToXyzD50(reflectance: ArrayLike<number>): Triple {
  const { length } = reflectance;
  if (length !== COUNT && length !== SHORT_COUNT)
    throw new RangeError(
      `Expected ${COUNT} reflectances (380 to 730 nm) or ${SHORT_COUNT} (400 to 700 nm), received ${length}.`,
    );
  const shift = length === COUNT ? 0 : (SHORT_FIRST_NM - FIRST_NM) / STEP_NM;
  let X = 0;
  let Y = 0;
  let Z = 0;
  for (let i = 0; i < COUNT; i++) {
    const value = reflectance[Math.min(length - 1, Math.max(0, i - shift))];
    X += WEIGHTS[3 * i] * value;
    Y += WEIGHTS[3 * i + 1] * value;
    Z += WEIGHTS[3 * i + 2] * value;
  }
  return [X, Y, Z];
}
