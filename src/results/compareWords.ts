import type { InkReport, InkVerdict, PaperVerdict } from "./compareResult.ts";

/** Verdicts in words for people. */
export const INK_WORDS: Readonly<Record<InkVerdict, string>> = {
  "ink-lost": "ink lost",
  changed: "changed, not shown to be loss of ink",
  "no-change-shown": "no change shown",
  uncertain: "uncertain: the floor is too high here",
};

/** Figures that speak for less of an ink than this have to say so. */
const SMALL_SHARE = 0.5;

/** Whether an ink's figures speak for less than half of it; older results don't say, and are taken as they are. */
export function isSmallShare({ measuredShare }: Pick<InkReport, "measuredShare">): boolean {
  return measuredShare !== undefined && measuredShare < SMALL_SHARE;
}

/** Verdict of an ink in words, and of how much of it where that is little. */
export function inkWords(ink: Pick<InkReport, "verdict" | "measuredShare">): string {
  const { verdict, measuredShare = 0 } = ink;
  if (!isSmallShare(ink)) return INK_WORDS[verdict];
  return measuredShare === 0
    ? `${INK_WORDS[verdict]}; none of its area could be measured`
    : `${INK_WORDS[verdict]}; measured on ${String(Math.max(1, Math.round(100 * measuredShare)))} % of its area`;
}

export const PAPER_WORDS: Readonly<Record<PaperVerdict, string>> = {
  lighter: "paper lighter",
  darker: "paper darker",
  "no-change-shown": "no change shown",
  uncertain: "uncertain: the floor is too high here",
};
