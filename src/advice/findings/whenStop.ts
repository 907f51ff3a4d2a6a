import { listOf } from "../../bath/shareText.ts";
import type { Reason } from "../advice.ts";
import type { Ending } from "../endingOf.ts";
import type { TreatmentState } from "../treatmentState.ts";
import { SHEET_WORDS, VERDICT_WORDS } from "../../results/adviceWords.ts";
import type { Findings } from "./findings.ts";
import { ONE_BATH } from "./oneBath.ts";

/** Risk or gain speak against another bath. */
export function whenStop(
  state: TreatmentState,
  against: readonly Reason[],
  ending: Ending,
): Findings {
  const risky = against.filter(({ code }) => code === "risk-above-limit");
  const wouldChangeIt = [
    ...(state.baths.length === 1 ? [ONE_BATH] : []),
    ...(risky.length > 0
      ? [
          `A narrower reading of ${listOf(risky.slice(0, 1).flatMap(({ ink }) => ink ?? []))} (blotter tests of the other inks, a bath of unprinted paper), or finished treatments of this bench.`,
        ]
      : []),
    ...(against.some(({ code }) => code === "gain-below-least")
      ? ["A smaller least gain, if the remaining soil matters that much to you."]
      : []),
    "Your own limits: they are yours to set before the next bath, not after it.",
  ];
  if (state.baths.length === 0)
    return {
      verdict: "stop",
      headline: "no bath for this cover, within your limits",
      sheetNow: "not-in-water",
      sheetText: SHEET_WORDS["not-in-water"],
      reasons: against,
      mustDo: ["Keep the sheet dry: already a first bath may cost more than your limit."],
      wouldChangeIt,
    };
  const card = state.stripCard === true ? "the same strip" : "the same card";
  const after = [
    "Drain on the support, then dry flat between blotters.",
    `When fully dry: scan again with ${card} in the frame. Only that shows what happened.`,
  ];
  if (ending.what === "alkaline-bath")
    return {
      verdict: "stop",
      headline: "stop cleaning; one last alkaline bath, then dry",
      sheetNow: "in-rinse",
      sheetText: "into one last bath, plain (without surfactant) and mildly alkaline",
      reasons: against,
      mustDo: [
        `One last bath without surfactant, at most pH ${ending.ph}, ${ending.temperatureC} °C, ${ending.minutes} minutes, as tested: the last one had pH ${ending.lastPh}, so no reserve stays without it. Record it.`,
        ...after,
      ],
      wouldChangeIt,
    };
  return {
    verdict: "stop",
    headline: VERDICT_WORDS.stop,
    sheetNow: "drain-on-support",
    sheetText: SHEET_WORDS["drain-on-support"],
    reasons: against,
    mustDo: [
      `Stop cleaning, and no further bath: the last one was plain (without surfactant), so no rinse is owed. ${ending.why}`.trim(),
      ...after,
    ],
    wouldChangeIt,
  };
}
