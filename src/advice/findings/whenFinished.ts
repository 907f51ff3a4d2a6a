import { type BathState, isPlain } from "../treatmentState.ts";
import { type Findings, type JudgedInk, reason, sentence } from "./findings.ts";

/** The washed sheet was scanned dry: nothing is left to order. */
export function whenFinished(bleeding: readonly JudgedInk[], last: BathState | null): Findings {
  return {
    verdict: "stop",
    headline: "this treatment is finished",
    sheetNow: "not-in-water",
    sheetText: "dry, and it stays dry",
    reasons: [
      reason(
        "treatment-finished",
        "The washed sheet was scanned dry after its last bath. What it lost is measured now, no longer predicted.",
      ),
      ...bleeding.map(({ ink, status }) =>
        reason("ink-bleeding", sentence(`${ink.id} bled in this treatment: ${status.why}.`), {
          ink: ink.id,
        }),
      ),
      ...(last === null || isPlain(last)
        ? []
        : [
            reason(
              "surfactant-left-in",
              last.surfactant === null
                ? "Nobody stated whether the last bath held surfactant: some may be left in."
                : "Surfactant was left in: the last bath held some.",
            ),
          ]),
    ],
    mustDo: ["Write the report and keep it with the object: lastrinse report RECORD"],
    wouldChangeIt: ["Nothing: another wash would be a new treatment, with a record of its own."],
  };
}
