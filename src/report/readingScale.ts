/** Ends of the steps in dE00 (judgement; thresholds after published just-noticeable differences of about 1 dE00). */
const NOT_VISIBLE = 1;
const SIDE_BY_SIDE = 2;
const VISIBLE = 4;

/**
 * A measured change in the words of the reading scale.
 * @param floor Smallest change that may be claimed; null: not known, then no words but "not measured".
 */
export function readingWords(deltaE00: number | null, floor: number | null): string {
  if (deltaE00 === null || floor === null) return "not measured";
  if (deltaE00 <= floor) return "no change shown";
  if (deltaE00 <= NOT_VISIBLE) return "measured, not visible";
  if (deltaE00 <= SIDE_BY_SIDE) return "visible side by side";
  return deltaE00 <= VISIBLE ? "visible" : "strong";
}

/** The scale itself, for the foot of a table. */
export const READING_SCALE =
  "Up to the floor: no change shown. Up to 1: measured, not visible. 1 to 2: visible side by side. 2 to 4: visible. Above 4: strong.";
