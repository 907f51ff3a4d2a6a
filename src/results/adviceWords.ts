import type { SheetNow, Verdict } from "./advice.ts";

/** Verdicts in words for people. An advice says them as they stand in its case: `headline`. */
export const VERDICT_WORDS: Readonly<Record<Verdict, string>> = {
  continue: "another bath is within your limits",
  stop: "stop cleaning; no further bath, let it dry",
  "rinse-first": "one plain rinse first, then ask again",
  lift: "lift the sheet out: an ink is bleeding",
  "do-not-immerse": "do not put this cover into the bath",
  "not-decidable": "cannot be decided yet",
};

/** Where the sheet belongs while the user reads on. An advice says it as it stands in its case: `sheetText`. */
export const SHEET_WORDS: Readonly<Record<SheetNow, string>> = {
  "not-in-water": "dry, out of any water",
  "in-bath": "may stay in the bath",
  "in-rinse": "into a plain bath (without surfactant)",
  "drain-on-support": "out of the bath, draining on its support",
  "blot-both-faces": "out on its support, blotted on both faces, no further water of any kind",
};
