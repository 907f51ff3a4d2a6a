import { labToXyz, xyzToLab } from "../colour/lab.ts";
import { SRGB_TO_XYZ_D50 } from "../colour/srgb.ts";
import type { Triple } from "../numeric/triple.ts";
import { WHITE_D50 } from "../colour/whites.ts";
import { invert3, type Matrix3, multiply3Vector } from "../numeric/matrix3.ts";

/** Linear RGB in which the scaling is done, and the white of the Lab values. */
export interface ScalingSpace {
  readonly toXyz: Matrix3;
  readonly white: Triple;
}

const SRGB_D50: ScalingSpace = { toXyz: SRGB_TO_XYZ_D50, white: WHITE_D50 };

/**
 * The colour an untouched ink would show on the changed paper, by scaling linear RGB channel by channel with the paper's
 * own ratio: printed ink is translucent, so a whiter paper lightens every ink on it.
 * @param ink Lab of the ink before. @param paperBefore @param paperAfter Lab of the bare paper.
 * @param space Default: linear sRGB, Lab D50.
 * @returns Lab under the white of `space`.
 */
export function expectByScaling(
  ink: Triple,
  paperBefore: Triple,
  paperAfter: Triple,
  { toXyz, white }: ScalingSpace = SRGB_D50,
): Triple {
  const fromXyz = invert3(toXyz);
  const toLinear = (lab: Triple): Triple => multiply3Vector(fromXyz, labToXyz(lab, white));
  const [r, g, b] = toLinear(ink);
  const from = toLinear(paperBefore);
  const to = toLinear(paperAfter);
  const expected: Triple = [(r * to[0]) / from[0], (g * to[1]) / from[1], (b * to[2]) / from[2]];
  return xyzToLab(multiply3Vector(toXyz, expected), white);
}
