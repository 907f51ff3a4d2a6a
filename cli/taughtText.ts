import { LARGEST_SCAN_NOISE_SHARE, LEAST_TAUGHT_DELTA_E00 } from "../calibration/priors.ts";
import type { CheckedInk, PredictionCheck } from "../src/results/prediction.ts";
import { plainLine } from "./plainText.ts";

/** What a finished treatment taught its bench, or why it taught nothing, ink by ink. */
export function taughtText({ inks, taught }: PredictionCheck): string {
  const silent = inks.filter(({ id }) => !taught.includes(id));
  return [
    taught.length === 0
      ? "The bench has learned nothing from this treatment:"
      : `The bench has learned from ${taught.join(", ")}${silent.length === 0 ? "." : "; not from:"}`,
    ...silent.map((ink) => `  ${ink.id}: ${whyNot(ink)}`),
  ]
    .map(plainLine)
    .join("\n");
}

function whyNot({ predicted, modelDeltaE00, measured, floorDeltaE00 }: CheckedInk): string {
  if (predicted === null || modelDeltaE00 === null) return "it was not predicted";
  if (measured === null || floorDeltaE00 === null) return "its loss was not measured";
  if (!(modelDeltaE00 >= LEAST_TAUGHT_DELTA_E00))
    return `the middle of its prediction, ${modelDeltaE00.toFixed(2)} dE00, is under the ${String(LEAST_TAUGHT_DELTA_E00)} from which a ratio of measured to predicted means anything`;
  if (!(measured > 0)) return "no loss was measured";
  return `the scan's floor, ${floorDeltaE00.toFixed(2)} dE00, is over ${(100 * LARGEST_SCAN_NOISE_SHARE).toFixed(0)} % of the ${measured.toFixed(2)} measured`;
}
