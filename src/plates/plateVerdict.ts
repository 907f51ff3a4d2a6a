import type { LossInterval } from "./mixtureInterval.ts";

export type PlateVerdict = "lost" | "none-shown" | "uncertain" | "absent";

const ABSENT_BELOW = 0.1;
const WIDE_FROM = 0.2;

/**
 * What may be said of a plate.
 * @param denseCoverage 95 % quantile of its coverage.
 */
export function plateVerdict(
  { lost, low, high }: LossInterval,
  denseCoverage: number,
): PlateVerdict {
  // Not known is not absent.
  if (denseCoverage < ABSENT_BELOW) return "absent";
  if (low > 0) return "lost";
  return lost > high / 2 || high > WIDE_FROM ? "uncertain" : "none-shown";
}
