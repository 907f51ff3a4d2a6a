import { predictionWords } from "../src/record/checkPrediction.ts";
import type { PredictionCheck } from "../src/results/prediction.ts";
import { plainLine } from "./plainText.ts";

/** Measurement beside prediction for people: what was measured goes first. */
export function checkText({ inks, agreeing, compared }: PredictionCheck): string {
  const figure = (value: number | null): string => (value === null ? "-" : value.toFixed(2));
  return [
    "Was the prediction right? Loss of ink in dE00, measured dry (95 %) and predicted from the baths (90 %):",
    ...inks.map(
      (ink) =>
        `  ${ink.id}: measured ${figure(ink.measured)} (${figure(ink.measuredLow)} to ${figure(ink.measuredHigh)}), ${
          ink.predicted === null
            ? "not predicted"
            : `predicted up to ${figure(ink.predicted.high)} (from ${figure(ink.predicted.low)})`
        }: ${predictionWords(ink)}`,
    ),
    `${String(agreeing)} of ${String(compared)} inks agree${wide(inks)}.`,
  ]
    .map(plainLine)
    .join("\n");
}

function wide(inks: PredictionCheck["inks"]): string {
  const untested = inks.filter(({ verdict }) => verdict === "too-wide-to-test").length;
  return untested === 0 ? "" : `; for ${String(untested)} the ranges are too wide to tell`;
}
