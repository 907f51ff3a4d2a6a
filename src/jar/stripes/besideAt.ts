import type { Triple } from "../../numeric/triple.ts";
import type { StripeReading } from "./stripeReading.ts";
import { mapTriple } from "../../numeric/mapTriple.ts";

/** Levels of the stripes beside the jar at any place of the photo, on the plane through both sides. */
export function besideAt(
  { left, right }: StripeReading,
  x: number,
  y: number,
): { readonly white: Triple; readonly contrast: Triple } {
  const share = (x - left.x) / (right.x - left.x);
  const at = (level: Triple, slope: Triple, middle: number): Triple =>
    mapTriple(level, (value, c) => value + slope[c] * (y - middle));
  const between = (a: Triple, b: Triple): Triple =>
    mapTriple(a, (value, c) => value + share * (b[c] - value));
  return {
    white: between(
      at(left.white, left.whiteSlope, left.y),
      at(right.white, right.whiteSlope, right.y),
    ),
    contrast: between(
      at(left.contrast, left.contrastSlope, left.y),
      at(right.contrast, right.contrastSlope, right.y),
    ),
  };
}
