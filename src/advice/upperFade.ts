import { Z90 } from "../../calibration/priors.ts";
import { forecastLogSd } from "./forecastLogSd.ts";
import type { FadeForecast } from "./treatmentState.ts";

/** Fade after one more bath that is exceeded in one treatment of twenty, dE00; null where it can't be said. */
export function upperFade(fade: FadeForecast | null): number | null {
  if (fade === null) return null;
  const upper = fade.medianDeltaE00 * Math.exp(Z90 * forecastLogSd(fade));
  return Number.isFinite(upper) && upper >= 0 ? upper : null;
}
