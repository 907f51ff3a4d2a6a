import { listOf } from "../../bath/shareText.ts";
import type { BathState } from "../treatmentState.ts";
import { SHEET_WORDS, VERDICT_WORDS } from "../../results/adviceWords.ts";
import { type Findings, reason } from "./findings.ts";

/** An event of the record can't be read: it may have been a bath, a bleed or a test. */
export function whenDamaged(events: readonly string[], last: BathState | null): Findings {
  const sheetNow = last === null ? "not-in-water" : "drain-on-support";
  const names = listOf(events);
  return {
    verdict: "not-decidable",
    headline: VERDICT_WORDS["not-decidable"],
    sheetNow,
    sheetText: SHEET_WORDS[sheetNow],
    reasons: [
      reason(
        "event-damaged",
        `${names} of the record can't be read. It may have told of a bath, a bleed or a test, so nothing is permitted.`,
      ),
    ],
    mustDo: [
      last === null
        ? "Keep the sheet out of the water until the record is whole."
        : "Lift the sheet out on its support and let it drain until the record is whole.",
      "Restore the damaged file from a copy, or record anew what it told.",
    ],
    wouldChangeIt: [`${names} restored as it was written.`],
  };
}
