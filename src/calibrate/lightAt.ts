import type { Triple } from "../numeric/triple.ts";
import type { LightField } from "./fitLightField.ts";
import { terms } from "./fitLightField.ts";

/** The light is never corrected by more than this share: beyond it the field is an extrapolation or no light (by judgement, no source). */
const LARGEST_CORRECTION = 0.3;

/**
 * Light at a place, relative to the mean over the samples: divide linear values by it, before any tone curve.
 * @param x Pixels of the frame.
 * @returns R, G, B, each from 0.7 to 1.3.
 */
export function lightAt(field: LightField, x: number, y: number): Triple {
  const row = terms((x - field.centre[0]) / field.scale, (y - field.centre[1]) / field.scale);
  const [r, g, b] = field.terms.map((solution) => {
    const light = solution.reduce((sum, value, i) => sum + value * row[i], 0);
    return Math.min(1 + LARGEST_CORRECTION, Math.max(1 - LARGEST_CORRECTION, light));
  });
  return [r, g, b];
}
