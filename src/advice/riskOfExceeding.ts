import { normalCdf } from "../numeric/normalCdf.ts";
import type { FadeForecast } from "./treatmentState.ts";

/**
 * Probability that an ink's fade after one more bath exceeds the limit: ln dE ~ N(ln median, sd^2) with
 * sd^2 = bench^2 + share^2 + (next / total)^2 next^2.
 * @example riskOfExceeding({ medianDeltaE00: 1.2, benchLogSd: 0.6, shareLogSd: 0, nextShare: 0, nextLogSd: 0 }, 2) // 0.197
 */
export function riskOfExceeding(fade: FadeForecast, maxDeltaE00: number): number {
  const { medianDeltaE00, benchLogSd, shareLogSd, nextShare, nextLogSd } = fade;
  if (!(medianDeltaE00 > 0)) return 0;
  const sd = Math.hypot(benchLogSd, shareLogSd, nextShare * nextLogSd);
  const distance = Math.log(medianDeltaE00 / maxDeltaE00);
  if (sd === 0) return distance > 0 ? 1 : 0;
  return normalCdf(distance / sd);
}
