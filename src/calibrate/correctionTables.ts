import { decodeSrgb } from "../colour/srgb.ts";
import type { Correction } from "./correction.ts";
import { toneCurveAt } from "./toneCurveAt.ts";

/**
 * For each channel and code value the tone-corrected linear value: inverse sRGB curve, then the tone curve of the correction.
 * Means over pixels are taken of these values.
 * @param bitDepth 8: tables of 256 entries; 16: of 65536.
 */
export function correctionTables(
  correction: Correction,
  bitDepth: 8 | 16,
): readonly [Float64Array, Float64Array, Float64Array] {
  const full = 2 ** bitDepth - 1;
  const decoded = Float64Array.from({ length: full + 1 }, (_, code) => decodeSrgb(code / full));
  const [red, green, blue] = correction.curves;
  return [
    decoded.map((linear) => toneCurveAt(red, linear)),
    decoded.map((linear) => toneCurveAt(green, linear)),
    decoded.map((linear) => toneCurveAt(blue, linear)),
  ];
}
