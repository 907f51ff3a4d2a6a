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
  /** The ink it is about; null where it is about the bath or the record. */
  readonly ink: string | null;
}

/** What to do before the next bath, and why. */
export interface Advice {
  readonly verdict: Verdict;
  /** The verdict in words, as it stands in this very treatment. */
  readonly headline: string;
  readonly sheetNow: SheetNow;
  /** The same in words. */
  readonly sheetText: string;
  /** The one that binds first. */
  readonly reasons: readonly Reason[];
  readonly limits: Limits;
  /**
   * Probability that the ink's total fade after one more bath exceeds the limit. null where it can't be said, and where the bath can't
   * show the ink's loss; a reason says which.
   */
  readonly riskOfExceeding: Readonly<Record<string, number | null>>;
  /** Fade after one more bath that is exceeded in one treatment of twenty, dE00, of what can dissolve; null where it can't be said. */
  readonly upperDeltaE00: Readonly<Record<string, number | null>>;
  /** Inks whose loss the bath may not show, because their colour can change where it stands. */
  readonly notShown: readonly string[];
  readonly mustDo: readonly string[];
  readonly wouldChangeIt: readonly string[];
}
