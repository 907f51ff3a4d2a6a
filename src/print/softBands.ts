import { SRGB_TO_XYZ_D50 } from "../colour/srgb.ts";
import { labToXyzD50, xyzD50ToLab } from "../colour/lab.ts";
import { invert3, type Matrix3, multiply3, multiply3Vector } from "../numeric/matrix3.ts";
import type { Triple } from "../numeric/triple.ts";
import { SMALLEST_BAND } from "./plateBands.ts";
import { SOFT } from "./softMix.ts";

const FROM_XYZ: Matrix3 = multiply3(SOFT, invert3(SRGB_TO_XYZ_D50));
const TO_XYZ: Matrix3 = invert3(FROM_XYZ);

/**
 * Light in three broad bands, long to short waves, positive on every print, where linear sRGB goes negative on solids of blue and yellow.
 * @param lab CIELAB D50.
 * @returns 1 on the perfect diffuser, at least 0.003.
 */
export function softBands(lab: Triple): Triple {
  const [r, g, b] = multiply3Vector(FROM_XYZ, labToXyzD50(lab));
  return [Math.max(SMALLEST_BAND, r), Math.max(SMALLEST_BAND, g), Math.max(SMALLEST_BAND, b)];
}

/** The CIELAB D50 of a light in the three bands. */
export function labOfSoftBands(bands: Triple): Triple {
  return xyzD50ToLab(multiply3Vector(TO_XYZ, bands));
}
