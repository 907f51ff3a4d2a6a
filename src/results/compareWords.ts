import type { InkVerdict, PaperVerdict } from "./compareResult.ts";

/** Verdicts in words for people. */
export const INK_WORDS: Readonly<Record<InkVerdict, string>> = {
  "ink-lost": "ink lost",
  changed: "changed, not shown to be loss of ink",
  "no-change-shown": "no change shown",
  uncertain: "uncertain: the floor is too high here",
};

export const PAPER_WORDS: Readonly<Record<PaperVerdict, string>> = {
  lighter: "paper lighter",
  darker: "paper darker",
  "no-change-shown": "no change shown",
  uncertain: "uncertain: the floor is too high here",
};
