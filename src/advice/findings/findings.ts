import type { Reason, SheetNow, Verdict } from "../advice.ts";
import type { InkStatus } from "../inkStatus.ts";
import type { InkState } from "../treatmentState.ts";

/** What one verdict says: everything of an advice but its figures. */
export interface Findings {
  readonly verdict: Verdict;
  /** The verdict in words for this case. */
  readonly headline: string;
  readonly sheetNow: SheetNow;
  /** Where the sheet belongs, in words for this case. */
  readonly sheetText: string;
  readonly reasons: readonly Reason[];
  readonly mustDo: readonly string[];
  readonly wouldChangeIt: readonly string[];
}

/** An ink with what the liquid in question may be expected to do to it. */
export interface JudgedInk {
  readonly ink: InkState;
  readonly status: InkStatus;
}

/** A sentence from words that begin with a name. */
export const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** A reason of an advice. */
export function reason(
  code: string,
  text: string,
  about: { readonly ink?: string; readonly value?: number | null; readonly limit?: number } = {},
): Reason {
  const { ink = null, value = null, limit = null } = about;
  return { code, text, value, limit, ink };
}
