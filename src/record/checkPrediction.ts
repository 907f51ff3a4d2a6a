import type { FadeResult } from "../advice/assessBaths.ts";
import { benchFactor, type FinishedInk } from "../bath/benchFactor.ts";
import type { CompareResult, InkReport } from "../results/compareResult.ts";

/** One ink: what the baths said it had lost, beside what the dry scan shows. */
export interface CheckedInk {
  readonly id: string;
  readonly predicted: { readonly low: number; readonly mid: number; readonly high: number } | null;
  /** Ink part of the measured change, dE00, with its 95 % interval. */
  readonly measured: number | null;
  readonly measuredLow: number | null;
  readonly measuredHigh: number | null;
  readonly floorDeltaE00: number | null;
  /** Whether the measured interval and the predicted 90 % range meet; null where either is missing. */
  readonly agrees: boolean | null;
}

export interface PredictionCheck {
  readonly inks: readonly CheckedInk[];
  /** Inks for which prediction and measurement meet, of those that have both. */
  readonly agreeing: number;
  readonly compared: number;
  /** What this treatment teaches the bench. */
  readonly teaches: readonly FinishedInk[];
}

function meets(
  { low, high }: { readonly low: number; readonly high: number },
  ink: InkReport,
): boolean | null {
  if (ink.inkPartLow === null || ink.inkPartHigh === null) return null;
  return ink.inkPartLow <= high && ink.inkPartHigh >= low;
}

/**
 * Compares the prediction with the washed, dry cover.
 * @param fade Predicted fade by ink, before the after scan was made.
 * @param compared The comparison of the washed cover with the before scan.
 * @param day ISO 8601 date of the washing: covers of one day share one bench error.
 */
export function checkPrediction(
  fade: Readonly<Record<string, FadeResult | null>>,
  compared: CompareResult,
  day: string,
): PredictionCheck {
  const teaches: FinishedInk[] = [];
  const inks = Object.entries(fade).map(([id, predicted]): CheckedInk => {
    const ink = compared.inks.find((one) => one.id === id);
    const measured = ink?.inkPartDeltaE00 ?? null;
    if (predicted !== null && ink !== undefined && measured !== null && ink.floorDeltaE00 !== null)
      teaches.push({
        day,
        inkClass: predicted.inkClass,
        modelDeltaE00: predicted.modelDeltaE00,
        measuredDeltaE00: measured,
        noiseDeltaE00: ink.floorDeltaE00,
      });
    return {
      id,
      predicted:
        predicted === null
          ? null
          : { low: predicted.low, mid: predicted.mid, high: predicted.high },
      measured,
      measuredLow: ink?.inkPartLow ?? null,
      measuredHigh: ink?.inkPartHigh ?? null,
      floorDeltaE00: ink?.floorDeltaE00 ?? null,
      agrees: predicted === null || ink === undefined ? null : meets(predicted, ink),
    };
  });
  const judged = inks.filter(({ agrees }) => agrees !== null);
  return {
    inks,
    agreeing: judged.filter(({ agrees }) => agrees === true).length,
    compared: judged.length,
    teaches: teaches.filter((one) => benchFactor([one], one.inkClass).treatments > 0),
  };
}
