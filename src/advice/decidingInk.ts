import type { Advice } from "./advice.ts";

/**
 * The ink that decides: the one that the first reason names where a reason other than a risk does; else the one with the largest risk; where
 * none can be stated, the one with the largest bound. null without any.
 */
export function decidingInk({
  verdict,
  reasons,
  riskOfExceeding,
  upperDeltaE00,
}: Advice): string | null {
  const named = reasons.find(
    ({ ink, code }) => typeof ink === "string" && code !== "loss-not-shown",
  );
  if (typeof named?.ink === "string") return named.ink;
  // Undecided for a reason that is no ink's: a small figure would be a comfort that nobody has.
  if (verdict === "not-decidable") return null;
  const first = Object.keys(upperDeltaE00)
    .filter((ink) => upperDeltaE00[ink] !== null)
    .sort(
      (a, b) =>
        (riskOfExceeding[b] ?? -1) - (riskOfExceeding[a] ?? -1) ||
        (upperDeltaE00[b] ?? 0) - (upperDeltaE00[a] ?? 0),
    );
  return first.at(0) ?? null;
}
