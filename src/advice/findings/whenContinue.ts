import type { Reason } from "../advice.ts";
import { coversLiquid, PH_MARGIN, TEMPERATURE_MARGIN_C } from "../coversLiquid.ts";
import { inkStatus } from "../inkStatus.ts";
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

/**
 * The strongest liquid for which every ink has a test, said as limits for the next bath: from the test of each ink that permits it.
 */
function sameLiquid(liquid: Liquid | null, inks: readonly InkState[]): string {
  const deciding = inks.flatMap((ink) => {
    const tested = [...ink.tests].sort((a, b) => b.order - a.order);
    const own = tested.find(
      (test) =>
        test.result === inkStatus(ink, liquid).state &&
        (liquid === null || test.liquid === null || coversLiquid(test.liquid, liquid) === null),
    );
    const stated = own?.liquid ?? null;
    return stated === null ? [] : [{ liquid: stated }];
  });
  const least = (name: "ph" | "temperatureC" | "minutes"): number | null => {
    const known = deciding.flatMap((one) => one.liquid[name] ?? []);
    return known.length === 0 ? null : Math.min(...known);
  };
  const ph = least("ph");
  const temperatureC = least("temperatureC");
  const minutes = least("minutes");
  const limits = [
    ...(ph === null ? [] : [`pH ${(ph + PH_MARGIN).toFixed(1)}`]),
    ...(temperatureC === null ? [] : [`${String(temperatureC + TEMPERATURE_MARGIN_C)} °C`]),
    ...(minutes === null ? [] : [`${String(minutes)} minutes`]),
  ];
  const held = deciding.length > 0 && deciding.every((one) => one.liquid.surfactant === true);
  const surfactant = held ? "no more surfactant than in the tests" : "no surfactant";
  const what = liquid === null ? "the liquid that was tested" : "the same liquid as the last bath";
  const bounds =
    limits.length === 0 ? "no more alkaline, no warmer, no longer" : `at most ${limits.join(", ")}`;
  return `Use ${what}: ${bounds}, and ${surfactant}.`;
}
