import type { Matrix3 } from "../numeric/matrix3.ts";
import { invert3, multiply3, multiply3Vector } from "../numeric/matrix3.ts";
import { adaptationMatrix } from "./adapt.ts";
import { labToXyzD50 } from "./lab.ts";
import type { Triple } from "../numeric/triple.ts";
import { WHITE_D50, WHITE_D65, whiteFromChromaticity } from "./whites.ts";

/** Linear light of an sRGB code value, both 0..1 (IEC 61966-2-1). */
export function decodeSrgb(code: number): number {
  return code <= 0.04045 ? code / 12.92 : ((code + 0.055) / 1.055) ** 2.4;
}

/** sRGB code value of linear light, both 0..1 (IEC 61966-2-1). Not clipped. */
export function encodeSrgb(linear: number): number {
  return linear <= 0.0031308 ? 12.92 * linear : 1.055 * linear ** (1 / 2.4) - 0.055;
}

/** RGB to XYZ matrix of a display with the given primaries and white, from the definition. */
function primariesToXyz(red: Triple, green: Triple, blue: Triple, white: Triple): Matrix3 {
  // prettier-ignore
  const columns: Matrix3 = [
    red[0], green[0], blue[0],
    red[1], green[1], blue[1],
    red[2], green[2], blue[2],
  ];
  const s = multiply3Vector(invert3(columns), white);
  // prettier-ignore
  return multiply3(columns, [s[0], 0, 0, 0, s[1], 0, 0, 0, s[2]]);
}

/** Linear sRGB to XYZ under D65: primaries of IEC 61966-2-1. */
export const SRGB_TO_XYZ_D65: Matrix3 = primariesToXyz(
  whiteFromChromaticity(0.64, 0.33),
  whiteFromChromaticity(0.3, 0.6),
  whiteFromChromaticity(0.15, 0.06),
  WHITE_D65,
);

/** Linear sRGB to XYZ under the product's D50, linear Bradford. */
export const SRGB_TO_XYZ_D50: Matrix3 = multiply3(
  adaptationMatrix(WHITE_D65, WHITE_D50),
  SRGB_TO_XYZ_D65,
);

const XYZ_D50_TO_SRGB = invert3(SRGB_TO_XYZ_D50);

/** sRGB code values 0..1 of a CIELAB D50 colour, clipped to the gamut: for display only. */
export function labD50ToSrgb(lab: Triple): Triple {
  const linear = multiply3Vector(XYZ_D50_TO_SRGB, labToXyzD50(lab));
  const code = (value: number): number => Math.min(1, Math.max(0, encodeSrgb(Math.max(0, value))));
  return [code(linear[0]), code(linear[1]), code(linear[2])];
}
