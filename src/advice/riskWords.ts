import type { Advice } from "./advice.ts";
import { LARGEST_RISK } from "./largestRisk.ts";
import { shareBeside } from "./toldApart.ts";

/** The risk of one ink in words: a share with the decimal that decides, or why there is none. */
export function riskWords({ riskOfExceeding, notShown, limits }: Advice, ink: string): string {
  const risk = riskOfExceeding[ink] ?? null;
  if (risk !== null) return shareBeside(risk, Math.min(limits.risk, LARGEST_RISK));
  return notShown.includes(ink) ? "not measurable from the bath" : "cannot be said";
}
