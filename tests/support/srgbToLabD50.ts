import { xyzD50ToLab } from "../../src/colour/lab.ts";
import { decodeSrgb, SRGB_TO_XYZ_D50 } from "../../src/colour/srgb.ts";
import { multiply3Vector } from "../../src/numeric/matrix3.ts";
import type { Triple } from "../../src/numeric/triple.ts";

/** CIELAB D50 of an sRGB colour in code values 0..1. */
export function srgbToLabD50([r, g, b]: Triple): Triple {
  return xyzD50ToLab(
    multiply3Vector(SRGB_TO_XYZ_D50, [decodeSrgb(r), decodeSrgb(g), decodeSrgb(b)]),
  );
}
