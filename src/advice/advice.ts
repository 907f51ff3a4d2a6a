import type { Limits } from "../bath/evidence.ts";

export type Verdict =
  "continue" | "stop" | "rinse-first" | "lift" | "do-not-immerse" | "not-decidable";

/** Where the sheet belongs while the user reads on. */
export type SheetNow =
  "not-in-water" | "in-bath" | "in-rinse" | "drain-on-support" | "blot-both-faces";

export interface Reason {
  readonly code: string;
  readonly text: string;
  readonly value: number | null;
  readonly limit: number | null;
}

/** What to do before the next bath, and why. */
export interface Advice {
  readonly verdict: Verdict;
  readonly sheetNow: SheetNow;
  /** The one that binds first. */
  readonly reasons: readonly Reason[];
  readonly limits: Limits;
  /** Probability that the ink's total fade after one more bath exceeds the limit; null where it can't be said. */
  readonly riskOfExceeding: Readonly<Record<string, number | null>>;
  readonly mustDo: readonly string[];
  readonly wouldChangeIt: readonly string[];
}
