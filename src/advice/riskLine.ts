import type { Advice } from "./advice.ts";
import { LARGEST_RISK } from "./largestRisk.ts";
import { riskWords } from "./riskWords.ts";
import { deltaBeside, limitShare, shortest } from "./toldApart.ts";

/** What one more bath may cost an ink, the upper bound first: "red: up to 3.9 dE00 with one more bath; your limit is 2. Risk ...". */
export function riskLine(advice: Advice, ink: string): string {
  const { maxDeltaE00, risk } = advice.limits;
  const upper = advice.upperDeltaE00[ink] ?? null;
  const part = advice.notShown.includes(ink) ? ", as far as it dissolves" : "";
  const bound =
    upper === null
      ? "its fade can't be predicted"
      : `up to ${deltaBeside(upper, maxDeltaE00)} dE00 with one more bath${part}`;
  return `${ink}: ${bound}; your limit is ${shortest(maxDeltaE00)}. Risk of passing it: ${riskWords(advice, ink)} (accepted: ${limitShare(Math.min(risk, LARGEST_RISK))})`;
}
