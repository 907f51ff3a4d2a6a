import { EPSILON, KAPPA } from "./cielab.ts";
import type { Triple } from "../numeric/triple.ts";
import { WHITE_D50 } from "./whites.ts";

function compress(t: number): number {
  return t > EPSILON ? Math.cbrt(t) : (KAPPA * t + 16) / 116;
}

function expand(f: number): number {
  const cube = f * f * f;
  return cube > EPSILON ? cube : (116 * f - 16) / KAPPA;
}

/**
 * CIELAB of a colour relative to a stated white.
 * @param xyz X, Y, Z with Y = 1 for the perfect diffuser.
 * @param white X, Y, Z of the white. No adaptation is made: `xyz` must already be seen under it.
 * @returns L*, a*, b*. Negative XYZ follow the linear branch; NaN in gives NaN out.
 * @see CIE 15, ISO/CIE 11664-4.
 */
export function xyzToLab(xyz: Triple, white: Triple): Triple {
  const fx = compress(xyz[0] / white[0]);
  const fy = compress(xyz[1] / white[1]);
  const fz = compress(xyz[2] / white[2]);
  return [116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)];
}

/** The inverse of {@link xyzToLab}. */
export function labToXyz(lab: Triple, white: Triple): Triple {
  const fy = (lab[0] + 16) / 116;
  return [
    white[0] * expand(fy + lab[1] / 500),
    white[1] * expand(fy),
    white[2] * expand(fy - lab[2] / 200),
  ];
}

/** CIELAB D50 of an XYZ already relative to D50. */
export function xyzD50ToLab(xyz: Triple): Triple {
  return xyzToLab(xyz, WHITE_D50);
}

/** XYZ relative to D50 of a CIELAB D50 colour. */
export function labToXyzD50(lab: Triple): Triple {
  return labToXyz(lab, WHITE_D50);
}
