import type { FadeForecast } from "./treatmentState.ts";

/** Log-sd of the fade after one more bath: sd^2 = bench^2 + share^2 + (next / total)^2 next^2. */
export function forecastLogSd({
  benchLogSd,
  shareLogSd,
  nextShare,
  nextLogSd,
}: FadeForecast): number {
  return Math.hypot(benchLogSd, shareLogSd, nextShare * nextLogSd);
}
