import type { Reason } from "../advice.ts";
import { PH_MARGIN, TEMPERATURE_MARGIN_C } from "../coversLiquid.ts";
import type { InkState, Liquid, TreatmentState } from "../treatmentState.ts";
import { SHEET_WORDS, VERDICT_WORDS } from "../../results/adviceWords.ts";
import type { Findings } from "./findings.ts";
import { ONE_BATH } from "./oneBath.ts";

/** Another bath is within the limits. */
export function whenContinue(
  { baths, inks }: TreatmentState,
  liquid: Liquid | null,
  reasons: readonly Reason[],
): Findings {
  const first = baths.length === 0;
  const sheetNow = first ? "not-in-water" : "in-bath";
  return {
    verdict: "continue",
    headline: first ? "a first bath is within your limits" : VERDICT_WORDS.continue,
    sheetNow,
    sheetText: first ? "still dry, until its first bath is ready" : SHEET_WORDS["in-bath"],
    reasons,
    mustDo: [
      sameLiquid(liquid, inks),
      "Photograph the spent bath beside a blank of the same age, then ask again.",
      "If colour shows at an ink's edge or on the support: lift at once.",
    ],
    wouldChangeIt: [
      ...(baths.length === 1 ? [ONE_BATH] : []),
      "Colour of an ink in the next jar, or a stronger liquid than the one tested.",
    ],
  };
}

/** The strongest liquid for which every ink has a test, said as limits for the next bath. */
function sameLiquid(liquid: Liquid | null, inks: readonly InkState[]): string {
  const tested = inks.flatMap(({ tests }) => tests.flatMap((test) => test.liquid ?? []));
  const least = (values: readonly (number | null)[]) => {
    const known = values.flatMap((value) => value ?? []);
    return known.length === 0 ? null : Math.min(...known);
  };
  const ph = least(tested.map((test) => test.ph));
  const temperatureC = least(tested.map((test) => test.temperatureC));
  const minutes = least(tested.map((test) => test.minutes));
  const limits = [
    ...(ph === null ? [] : [`at most pH ${(ph + PH_MARGIN).toFixed(1)}`]),
    ...(temperatureC === null ? [] : [`${temperatureC + TEMPERATURE_MARGIN_C} °C`]),
    ...(minutes === null ? [] : [`${minutes} minutes`]),
  ];
  const what = liquid === null ? "the liquid that was tested" : "the same liquid as the last bath";
  return limits.length === 0
    ? `Use ${what}: no more alkaline, no warmer, no longer, and no surfactant that was not in the test.`
    : `Use ${what}: ${limits.join(", ")}, and no surfactant that was not in the test.`;
}
