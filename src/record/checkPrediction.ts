import type { FadeResult } from "../advice/assessBaths.ts";
import { benchFactor, type FinishedInk } from "../bath/benchFactor.ts";
import type { CompareResult, InkReport } from "../results/compareResult.ts";

/**
 * `agrees`: the predicted range is narrower than the limit and holds what was measured. `contradicted`: the two ranges don't meet.
 * `too-wide-to-test`: they meet, but the one or the other is too wide to call that agreement.
 */
export type PredictionVerdict = "agrees" | "contradicted" | "too-wide-to-test";

/** One ink: what the baths said it had lost, beside what the dry scan shows. */
export interface CheckedInk {
  readonly id: string;
  readonly predicted: { readonly low: number; readonly mid: number; readonly high: number } | null;
  /** Middle of the prediction by the model alone: what the bench learns against. null: not predicted. */
  readonly modelDeltaE00: number | null;
  /** Ink part of the measured change, dE00, with its 95 % interval. */
  readonly measured: number | null;
  readonly measuredLow: number | null;
  readonly measuredHigh: number | null;
  readonly floorDeltaE00: number | null;
  /** null where prediction or measurement is missing. */
  readonly verdict: PredictionVerdict | null;
  /** The same as yes or no; null where nothing was tested. */
  readonly agrees: boolean | null;
}

export interface PredictionCheck {
  readonly inks: readonly CheckedInk[];
  /** Inks that agree, of those that have both a prediction and a measurement. */
  readonly agreeing: number;
  readonly compared: number;
  /** What this treatment teaches the bench: only what is far enough above its own doubt. */
  readonly teaches: readonly FinishedInk[];
  /** Ids of those inks. */
  readonly taught: readonly string[];
}

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
