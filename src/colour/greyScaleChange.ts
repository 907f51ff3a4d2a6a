import type { Triple } from "../numeric/triple.ts";

const DEGREES = 180 / Math.PI;
const RADIANS = Math.PI / 180;

/** Upper ends of dE_F for the grades 5, 4-5, ... 1-2 of ISO 105-A05; above the last it is grade 1. */
const GRADE_LIMITS = [0.4, 1.25, 2.1, 2.95, 4.1, 5.8, 8.2, 11.6] as const;

/** The half-step grades of the grey scales, best first. */
export const GREY_SCALE_GRADES = ["5", "4-5", "4", "3-4", "3", "2-3", "2", "1-2", "1"] as const;

export type GreyScaleGrade = (typeof GREY_SCALE_GRADES)[number];

export interface GreyScaleChange {
  /** The weighted difference dE_F, in CIELAB units. */
  readonly difference: number;
  /** Continuous step, 5 (no change) downwards; meets the grade scale at 5, 4, 3, 2, 1. */
  readonly step: number;
  /** null where a colour is missing (NaN). */
  readonly grade: GreyScaleGrade | null;
}

/**
 * Change in colour on the grey scale, from CIELAB.
 * @param before L*, a*, b*.
 * @param after L*, a*, b* under the same white. The standard prefers D65 and 10 degree; say which was used.
 * @returns dE_F, a continuous step and the half-step grade. NaN in gives NaN and grade null.
 * @see ISO 105-A05; formula text from memory, its structure confirmed in two public implementations. Letters follow the
 * standard: h_M mean hue, C_M mean chroma, D the correction for blue-violet hues.
 */
export function greyScaleChange(before: Triple, after: Triple): GreyScaleChange {
  const C1 = Math.hypot(before[1], before[2]);
  const C2 = Math.hypot(after[1], after[2]);
  const achromatic = C1 === 0 || C2 === 0;
  const h1 = hueDegrees(before);
  const h2 = hueDegrees(after);
  const dL = after[0] - before[0];
  const dC = C2 - C1;
  const dH = achromatic ? 0 : 2 * Math.sqrt(C1 * C2) * Math.sin((wrap(h2 - h1) / 2) * RADIANS);
  const CM = (C1 + C2) / 2;
  const fromBlue = Math.abs((achromatic ? h1 + h2 : meanHue(h1, h2)) - 280);
  const x = ((fromBlue <= 180 ? fromBlue : 360 - fromBlue) / 30) ** 2;
  const D = (dC * CM * Math.exp(-x)) / 100;
  const dHF = (dH - D) / (1 + ((10 * CM) / 1000) ** 2);
  const dCF = (dC - D) / (1 + ((20 * CM) / 1000) ** 2);
  const difference = Math.sqrt(dL * dL + dCF * dCF + dHF * dHF);
  return { difference, step: continuousStep(difference), grade: gradeOf(difference) };
}

/** The two branches meet at step 3; the second gives 1 at dE_F 13.6. */
function continuousStep(difference: number): number {
  return difference <= 3.4 ? 5 - difference / 1.7 : 5 - Math.log2(difference / 0.85);
}

function gradeOf(difference: number): GreyScaleGrade | null {
  if (Number.isNaN(difference)) return null;
  const place = GRADE_LIMITS.findIndex((limit) => difference < limit);
  return GREY_SCALE_GRADES[place < 0 ? GRADE_LIMITS.length : place];
}

function hueDegrees(lab: Triple): number {
  const h = Math.atan2(lab[2], lab[1]) * DEGREES;
  return h < 0 ? h + 360 : h;
}

function wrap(degrees: number): number {
  if (degrees > 180) return degrees - 360;
  return degrees < -180 ? degrees + 360 : degrees;
}

function meanHue(h1: number, h2: number): number {
  const mean = (h1 + h2) / 2;
  if (Math.abs(h1 - h2) <= 180) return mean;
  return h1 + h2 < 360 ? mean + 180 : mean - 180;
}
