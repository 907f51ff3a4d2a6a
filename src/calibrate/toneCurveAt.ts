import { monotoneCubicAt } from "../numeric/monotoneCubic.ts";
import type { ToneCurve } from "./correction.ts";

/**
 * Tone-corrected linear value of a decoded one.
 * @param linear Code value decoded by the inverse sRGB curve, 0..1.
 * @returns About proportional to light; not clipped above. NaN in gives NaN out.
 */
export function toneCurveAt(curve: ToneCurve, linear: number): number {
  switch (curve.kind) {
    case "identity":
      return linear;
    case "power":
      return linear <= curve.offset ? 0 : (linear - curve.offset) ** curve.exponent;
    case "monotone":
      return monotoneCubicAt(curve.x, curve.y, curve.slope, linear);
  }
}
