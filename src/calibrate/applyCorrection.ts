import type { Triple } from "../numeric/triple.ts";
import type { Correction } from "./correction.ts";
import { labOfMean } from "./labOfMean.ts";
import { toneCurveAt } from "./toneCurveAt.ts";

/**
 * CIELAB D50 of one decoded device colour.
 * @param linear R, G, B code values decoded by the inverse sRGB curve, 0..1: of a pixel or of an even patch. For the mean of an
 * uneven area go through `correctionTables` and `labOfMean`.
 */
export function applyCorrection(correction: Correction, linear: Triple): Triple {
  const [red, green, blue] = correction.curves;
  return labOfMean(correction, [
    toneCurveAt(red, linear[0]),
    toneCurveAt(green, linear[1]),
    toneCurveAt(blue, linear[2]),
  ]);
}
