import {
  BATH_ERROR_PER_CM,
  BATH_ERROR_RELATIVE,
  RISING_FACTOR,
  Z90,
} from "../../calibration/priors.ts";

/**
 * Whether an ink comes out faster than before: the last bath holds over 1.25 times the one before it, like with like, and the
 * rise is beyond the error of two readings (two near-empty baths differ by chance alone).
 * @param perCm Amounts of comparable baths in order, carry-over taken off.
 */
export function isRising(perCm: readonly number[]): boolean {
  if (perCm.length < 2) return false;
  const [before, last] = perCm.slice(-2);
  const sd = Math.hypot(
    BATH_ERROR_RELATIVE * before,
    BATH_ERROR_RELATIVE * last,
    BATH_ERROR_PER_CM,
    BATH_ERROR_PER_CM,
  );
  return last > RISING_FACTOR * before && last - before > Z90 * sd;
}
