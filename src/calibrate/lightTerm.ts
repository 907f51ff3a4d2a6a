import type { Triple } from "../numeric/triple.ts";
import type { Matrix3 } from "../numeric/matrix3.ts";
import { multiply3Vector } from "../numeric/matrix3.ts";
import { differenceCoordinates } from "./differenceCoordinates.ts";

/**
 * Share by which the light on an area may differ between two frames without the card, elsewhere in the frame, showing it. Taken where
 * neither an unwashed control nor a flat field says better: 0.6 % for flatbed scanners, by judgement.
 */
export const USUAL_UNEVENNESS = 0.006;

/** Change of Lab for a change of light by the factor 1 + share: all of X, Y and Z change alike, their cube roots by a third of it. */
function labPerLight([L, a, b]: Triple, share: number): Triple {
  return [((L + 16) / 3) * share, (a / 3) * share, (b / 3) * share];
}

/** The dE00 that a share of light more or less makes at a colour: the lighting term u of the floor. */
export function lightTerm(lab: Triple, share: number): number {
  return Math.hypot(...multiply3Vector(differenceCoordinates(lab), labPerLight(lab, share)));
}

/** Standard normal quantile of 0.975. */
const Z = 1.959964;

/** Covariance of a Lab difference whose lighting term is u: along the direction in which light changes a colour. */
export function lightCovariance(lab: Triple, u: number): Matrix3 {
  const unit = lightTerm(lab, 1);
  const v = labPerLight(lab, u / (Z * unit));
  // prettier-ignore
  return [
    v[0] * v[0], v[0] * v[1], v[0] * v[2],
    v[1] * v[0], v[1] * v[1], v[1] * v[2],
    v[2] * v[0], v[2] * v[1], v[2] * v[2],
  ];
}
