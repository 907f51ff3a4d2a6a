import type { PredictionCheck } from "../src/results/prediction.ts";
import { plainLine } from "./plainText.ts";

/** Prediction beside measurement for people. */
export function checkText({ inks, agreeing, compared }: PredictionCheck): string {
  const figure = (value: number | null): string => (value === null ? "-" : value.toFixed(2));
  return [
    "Was the prediction right? Loss of ink in dE00, predicted from the baths (90 %) and measured dry (95 %):",
    ...inks.map(
      ({ id, predicted, measured, measuredLow, measuredHigh, agrees }) =>
        `  ${id}: ${
          predicted === null
            ? "not predicted"
            : `predicted ${figure(predicted.mid)} (${figure(predicted.low)} to ${figure(predicted.high)})`
        }, measured ${figure(measured)} (${figure(measuredLow)} to ${figure(measuredHigh)})${
          agrees === null ? "" : agrees ? ": they meet" : ": they do not meet"
        }`,
    ),
    `${String(agreeing)} of ${String(compared)} inks agree.`,
  ]
    .map(plainLine)
    .join("\n");
}
