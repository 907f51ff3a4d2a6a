import {
  BATH_ERROR_PER_CM,
  BATH_ERROR_RELATIVE,
  RISING_FACTOR,
  Z90,
} from "../../calibration/priors.ts";
import type { Range } from "./predictFade.ts";

/**
 * Camera, soil and peak are the same in every bath of a series, so two readings err together: this part of their ranges is left in a
 * difference. By simulation (tests/study/rising.script.ts) 2 to 4 % false alarms a bath, and 0.004 0.010 0.016 beside soil found in 87 %.
 */
const UNSHARED_ERROR = 0.5;

/**
 * Whether an ink comes out faster than before: the last bath holds over 1.25 times an earlier one, like with like, and the rise is
 * beyond the error of both (two near-empty baths, or two badly known ones, differ by chance alone).
 * @param amounts Comparable baths in order, carry-over taken off, each as a 90 % range per cm.
 */
export function isRising(amounts: readonly Range[]): boolean {
  const last = amounts.at(-1);
  if (last === undefined) return false;
  return amounts
    .slice(0, -1)
    .some(
      (before) =>
        last.mid > RISING_FACTOR * before.mid &&
        last.mid - before.mid > Z90 * Math.hypot(errorOf(before), errorOf(last)),
    );
}

function errorOf({ low, mid, high }: Range): number {
  return Math.hypot(
    BATH_ERROR_RELATIVE * mid,
    BATH_ERROR_PER_CM,
    (UNSHARED_ERROR * (high - low)) / 2 / Z90,
  );
}
