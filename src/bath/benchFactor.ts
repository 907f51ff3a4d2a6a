import {
  BENCH_LOG_SD,
  LARGEST_SCAN_NOISE_SHARE,
  LEAST_TAUGHT_DELTA_E00,
  SCAN_LOG_SD,
  WITHIN_BENCH_LOG_SD,
  Z90,
} from "../../calibration/priors.ts";
import { mean } from "../numeric/statistics.ts";
import type { FinishedInk } from "../results/prediction.ts";

export type { FinishedInk };

export interface BenchFactor {
  /** Multiplies the predicted fade. 1 before anything was learned. */
  readonly factor: number;
  /** Predictive log-sd of the next treatment's factor: the whole error of a predicted fade but for the bath's reading. */
  readonly logSd: number;
  /** 90 % range of the factor. */
  readonly low: number;
  readonly high: number;
  /** Treatments (days) that taught it. */
  readonly treatments: number;
}

/**
 * How this bench's fades compare with the model, learned from finished treatments of one ink class (normal model of the logarithm).
 * Left out: predicted fade under 0.3, scan noise above half the change, nothing measured. Covers of one day count as one.
 * @param finished Any classes mixed.
 * @param inkClass Only this class teaches.
 * @example benchFactor([], "red") // factor 1, low 0.35, high 2.8
 */
export function benchFactor(finished: readonly FinishedInk[], inkClass: string): BenchFactor {
  const byDay = new Map<string, number[]>();
  for (const ink of finished) {
    if (ink.inkClass !== inkClass) continue;
    if (!(ink.modelDeltaE00 >= LEAST_TAUGHT_DELTA_E00) || !(ink.measuredDeltaE00 > 0)) continue;
    if (!(ink.noiseDeltaE00 <= LARGEST_SCAN_NOISE_SHARE * ink.measuredDeltaE00)) continue;
    const logRatios = byDay.get(ink.day) ?? [];
    logRatios.push(Math.log(ink.measuredDeltaE00 / ink.modelDeltaE00));
    byDay.set(ink.day, logRatios);
  }
  const treatments = byDay.size;
  const v = WITHIN_BENCH_LOG_SD ** 2 + SCAN_LOG_SD ** 2;
  const precision = 1 / BENCH_LOG_SD ** 2 + treatments / v;
  const sum = [...byDay.values()].reduce((total, logs) => total + mean(logs), 0);
  const posterior = sum / v / precision;
  const logSd = Math.sqrt(1 / precision + WITHIN_BENCH_LOG_SD ** 2);
  return {
    factor: Math.exp(posterior),
    logSd,
    low: Math.exp(posterior - Z90 * logSd),
    high: Math.exp(posterior + Z90 * logSd),
    treatments,
  };
}
