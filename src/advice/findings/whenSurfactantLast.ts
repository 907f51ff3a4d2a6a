import type { BathState } from "../treatmentState.ts";
import { SHEET_WORDS, VERDICT_WORDS } from "../../results/adviceWords.ts";
import { type Findings, reason } from "./findings.ts";

/** The last bath held surfactant, or nobody stated that it held none. */
export function whenSurfactantLast(last: BathState): Findings {
  const held =
    last.surfactant === null
      ? `It is not stated whether the last bath held surfactant; it is treated as if it did.${
          last.event === null
            ? ""
            : ` If it held none: lastrinse amend RECORD ${last.event} --set surfactant=false`
        }`
      : "The last bath held surfactant. What stays in the paper attracts dirt and loosens ink later.";
  return {
    verdict: "rinse-first",
    headline: VERDICT_WORDS["rinse-first"],
    sheetNow: "in-rinse",
    sheetText: SHEET_WORDS["in-rinse"],
    reasons: [reason("surfactant-last", held)],
    mustDo: [
      "One plain bath (without surfactant), no warmer and no more alkaline than the last.",
      "Shake 20 mL of the rinse in a closed bottle: a foam ring after one minute means not rinsed yet.",
      "Photograph the rinse in the jar beside a blank, then ask again.",
    ],
    wouldChangeIt: ["That plain rinse. If an ink bleeds meanwhile: lift at once."],
  };
}
