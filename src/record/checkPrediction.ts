import type { FadeResult } from "../advice/assessBaths.ts";
import { benchFactor } from "../bath/benchFactor.ts";
import type { CompareResult, InkReport } from "../results/compareResult.ts";
import type { CheckedInk, FinishedInk, PredictionCheck } from "../results/prediction.ts";

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
