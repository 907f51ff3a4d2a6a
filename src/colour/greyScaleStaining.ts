import { GREY_SCALE_GRADES, type GreyScaleGrade } from "./greyScaleChange.ts";
import type { Triple } from "../numeric/triple.ts";

/** Lower ends of the staining rating for the grades 5, 4-5, ... 1-2 of ISO 105-A04; below the last it is grade 1. */
const GRADE_LIMITS = [4.75, 4.25, 3.75, 3.25, 2.75, 2.25, 1.75, 1.25] as const;

export interface GreyScaleStaining {
  /** dE_GS: the CIELAB distance with the part that is not lightness weighted down. */
  readonly difference: number;
  /** Staining scale rating, 5 (no stain) downwards; not limited at 1. */
  readonly rating: number;
  /** null where a colour is missing (NaN). */
  readonly grade: GreyScaleGrade | null;
}

/**
 * Staining of a white by a colour, on the grey scale for staining: for blotters and swabs. Covers use the scale for change.
 * @param unstained L*, a*, b* of the white beside the stain (for a wet spot: a spot of the liquid alone).
 * @param stained L*, a*, b* of the stain, in the same state and under the same white.
 * @returns dE_GS, the rating and the half-step grade. NaN in gives NaN and grade null.
 * @see ISO 105-A04; formula text from memory. The logarithm is natural: so the formula meets the scale of ISO 105-A03.
 */
export function greyScaleStaining(unstained: Triple, stained: Triple): GreyScaleStaining {
  const dL = stained[0] - unstained[0];
  const notLightness = Math.hypot(stained[1] - unstained[1], stained[2] - unstained[2]);
  const difference = Math.hypot(dL, notLightness) - 0.4 * notLightness;
  const logarithmic = 6.1 - 1.45 * Math.log(difference);
  const rating = logarithmic > 4 ? 5 - 0.23 * difference : logarithmic;
  const place = GRADE_LIMITS.findIndex((limit) => rating >= limit);
  const grade = GREY_SCALE_GRADES[place < 0 ? GRADE_LIMITS.length : place];
  return { difference, rating, grade: Number.isNaN(rating) ? null : grade };
}
