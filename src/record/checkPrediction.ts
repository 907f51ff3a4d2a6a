import type { FadeResult } from "../advice/assessBaths.ts";
import { benchFactor } from "../bath/benchFactor.ts";
import type { CompareResult, InkReport } from "../results/compareResult.ts";
import type {
  CheckedInk,
  FinishedInk,
  PredictionCheck,
  PredictionVerdict,
} from "../results/prediction.ts";

function judge(
  { low, high }: { readonly low: number; readonly high: number },
  { inkPartDeltaE00, inkPartLow, inkPartHigh }: InkReport,
  maxDeltaE00: number,
): PredictionVerdict | null {
  if (inkPartDeltaE00 === null || inkPartLow === null || inkPartHigh === null) return null;
  if (![low, high].every(Number.isFinite)) return null;
  if (inkPartLow > high || inkPartHigh < low) return "contradicted";
  const covers = low <= inkPartDeltaE00 && inkPartDeltaE00 <= high;
  return high - low < maxDeltaE00 && covers ? "agrees" : "too-wide-to-test";
}

/**
 * Compares the prediction with the washed, dry cover.
 * @param fade Predicted fade by ink, before the after scan was made.
 * @param compared The comparison of the washed cover with the before scan.
 * @param day ISO 8601 date of the washing: covers of one day share one bench error.
 * @param maxDeltaE00 The user's limit: a range as wide as it tests nothing.
 */
export function checkPrediction(
  fade: Readonly<Record<string, FadeResult | null>>,
  compared: CompareResult,
  day: string,
  maxDeltaE00: number,
): PredictionCheck {
  const teaches: FinishedInk[] = [];
  const taught: string[] = [];
  const inks = Object.entries(fade).map(([id, predicted]): CheckedInk => {
    const ink = compared.inks.find((one) => one.id === id);
    const measured = ink?.inkPartDeltaE00 ?? null;
    if (
      predicted !== null &&
      ink !== undefined &&
      measured !== null &&
      ink.floorDeltaE00 !== null
    ) {
      const one: FinishedInk = {
        day,
        inkClass: predicted.inkClass,
        modelDeltaE00: predicted.modelDeltaE00,
        measuredDeltaE00: measured,
        noiseDeltaE00: ink.floorDeltaE00,
      };
      if (benchFactor([one], one.inkClass).treatments > 0) {
        teaches.push(one);
        taught.push(id);
      }
    }
    const verdict =
      predicted === null || ink === undefined ? null : judge(predicted, ink, maxDeltaE00);
    return {
      id,
      predicted:
        predicted === null
          ? null
          : { low: predicted.low, mid: predicted.mid, high: predicted.high },
      modelDeltaE00: predicted?.modelDeltaE00 ?? null,
      measured,
      measuredLow: ink?.inkPartLow ?? null,
      measuredHigh: ink?.inkPartHigh ?? null,
      floorDeltaE00: ink?.floorDeltaE00 ?? null,
      verdict,
      agrees: verdict === null || verdict === "too-wide-to-test" ? null : verdict === "agrees",
    };
  });
  const judged = inks.filter(({ verdict }) => verdict !== null);
  return {
    inks,
    agreeing: judged.filter(({ verdict }) => verdict === "agrees").length,
    compared: judged.length,
    teaches,
    taught,
  };
}

/** What became of one ink's prediction, in words. */
export function predictionWords({ verdict, measuredLow, predicted }: CheckedInk): string {
  switch (verdict) {
    case "agrees":
      return "agrees with the prediction";
    case "too-wide-to-test":
      return "ranges too wide to test the prediction";
    case "contradicted":
      return predicted !== null && (measuredLow ?? 0) > predicted.high
        ? "more was lost than predicted"
        : "less was lost than predicted";
    case null:
      return "cannot be compared";
  }
}
