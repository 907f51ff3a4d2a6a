import { listOf } from "../../bath/shareText.ts";
import { type BathState, isPlain } from "../treatmentState.ts";
import { SHEET_WORDS, VERDICT_WORDS } from "../../results/adviceWords.ts";
import { type Findings, type JudgedInk, reason, sentence } from "./findings.ts";

/** An ink bled under its blotter and no bath was given: keep it dry. */
export function whenBleedingBefore(bleeding: readonly JudgedInk[]): Findings {
  const names = listOf(bleeding.map(({ ink }) => ink.id));
  return {
    verdict: "do-not-immerse",
    headline: VERDICT_WORDS["do-not-immerse"],
    sheetNow: "not-in-water",
    sheetText: SHEET_WORDS["not-in-water"],
    reasons: bleeding.map(({ ink, status }) =>
      reason("ink-bleeds", sentence(`${ink.id} bleeds: ${status.why}.`), { ink: ink.id }),
    ),
    mustDo: [
      "Keep the sheet out of the water.",
      "Ask a conservator before any other wet treatment.",
    ],
    wouldChangeIt: [
      `A fast blotter of ${names} in a milder liquid (no surfactant, nearer pH 7.5, cooler, shorter). It would then hold for that liquid only.`,
    ],
  };
}

/**
 * An ink is bleeding: out, and no more water.
 * @param last null: no bath can be read in the record.
 */
export function whenBleeding(bleeding: readonly JudgedInk[], last: BathState | null): Findings {
  const names = listOf(bleeding.map(({ ink }) => ink.id));
  const reasons = bleeding.map(({ ink, status }) =>
    reason("ink-bleeding", sentence(`${ink.id} is bleeding: ${status.why}.`), { ink: ink.id }),
  );
  if (last !== null && !isPlain(last))
    reasons.push(
      reason(
        "surfactant-left-in",
        last.surfactant === null
          ? "Surfactant may be left in: nobody stated whether the last bath held some, and it is not rinsed out. That is the lesser harm now; note it in the record."
          : "Surfactant left in: the last bath held some and it is not rinsed out. That is the lesser harm now; note it in the record.",
      ),
    );
  return {
    verdict: "lift",
    headline: VERDICT_WORDS.lift,
    sheetNow: "blot-both-faces",
    sheetText: SHEET_WORDS["blot-both-faces"],
    reasons,
    mustDo: [
      "Lift the sheet out on its support now; don't tilt it across the image.",
      "Blot both faces with fresh dry blotters; cool moving air.",
      `No further water of any kind, rinse included, until ${names} tests fast in that liquid.`,
      "Note time and place, and photograph the area.",
    ],
    wouldChangeIt: [
      `A later blotter test of ${names}, fast, in a liquid at least as strong as the one to be used.`,
    ],
  };
}
