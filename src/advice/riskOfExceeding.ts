import { normalCdf } from "../numeric/normalCdf.ts";
import { forecastLogSd } from "./forecastLogSd.ts";
import type { FadeForecast } from "./treatmentState.ts";

/**
 * Probability that an ink's fade after one more bath exceeds the limit: ln dE ~ N(ln median, sd^2).
 * @returns null where the forecast or the limit is no figure: an unknown fade is never a small risk.
 * @example riskOfExceeding({ medianDeltaE00: 1.2, benchLogSd: 0.6, shareLogSd: 0, nextShare: 0, nextLogSd: 0 }, 2) // 0.197
 */
export function riskOfExceeding(fade: FadeForecast | null, maxDeltaE00: number): number | null {
  if (fade === null) return null;
  const { medianDeltaE00 } = fade;
  const sd = forecastLogSd(fade);
  if (!(medianDeltaE00 >= 0) || !(maxDeltaE00 > 0) || !(sd >= 0) || sd === Infinity) return null;
  if (medianDeltaE00 === 0) return 0;
  const distance = Math.log(medianDeltaE00 / maxDeltaE00);
  if (sd === 0) return distance > 0 ? 1 : 0;
  // Beyond 40 sd the probability is 0 or 1 in every digit, and the quotient may overflow.
  return normalCdf(Math.max(-40, Math.min(40, distance / sd)));
}
