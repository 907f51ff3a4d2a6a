/** A step below this would change by more than an eighth. */
const LEAST_STEP = 4;

/**
 * A step of area means in whole pixels, where it matters little how large the cells are: no pixel is split, which takes half the
 * time. Small steps stay as they are.
 */
export function wholeStep(step: number): number {
  return step < LEAST_STEP ? step : Math.round(step);
}
