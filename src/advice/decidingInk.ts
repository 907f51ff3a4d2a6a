import type { Advice } from "./advice.ts";

/** The ink that decides: the one with the largest risk; where none can be stated, the one with the largest bound. null without any. */
export function decidingInk({ riskOfExceeding, upperDeltaE00 }: Advice): string | null {
  const first = Object.keys(upperDeltaE00)
    .filter((ink) => upperDeltaE00[ink] !== null)
    .sort(
      (a, b) =>
        (riskOfExceeding[b] ?? -1) - (riskOfExceeding[a] ?? -1) ||
        (upperDeltaE00[b] ?? 0) - (upperDeltaE00[a] ?? 0),
    );
  return first.at(0) ?? null;
}
