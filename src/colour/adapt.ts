import type { Matrix3 } from "../numeric/matrix3.ts";
import { invert3, multiply3, multiply3Vector } from "../numeric/matrix3.ts";
import type { Triple } from "../numeric/triple.ts";

/** Linearised Bradford cone matrix (ICC.1, CIE 160). */
// prettier-ignore
export const BRADFORD: Matrix3 = [
   0.8951,  0.2664, -0.1614,
  -0.7502,  1.7135,  0.0367,
   0.0389, -0.0685,  1.0296,
];

/** CAT02 cone matrix (CIE 159). */
// prettier-ignore
export const CAT02: Matrix3 = [
   0.7328, 0.4296, -0.1624,
  -0.7036, 1.6975,  0.0061,
   0.0030, 0.0136,  0.9834,
];

/**
 * The 3 x 3 matrix that takes XYZ seen under one white to XYZ seen under another (von Kries in cone space).
 * @param from XYZ of the white in which the colours are given.
 * @param to XYZ of the white in which they are wanted.
 * @param cone Default linear Bradford.
 */
export function adaptationMatrix(from: Triple, to: Triple, cone: Matrix3 = BRADFORD): Matrix3 {
  const source = multiply3Vector(cone, from);
  const target = multiply3Vector(cone, to);
  // prettier-ignore
  const gain: Matrix3 = [
    target[0] / source[0], 0, 0,
    0, target[1] / source[1], 0,
    0, 0, target[2] / source[2],
  ];
  return multiply3(invert3(cone), multiply3(gain, cone));
}
