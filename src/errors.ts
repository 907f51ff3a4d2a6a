/**
 * Everything the user can mend is thrown as one class with a stable code. The command line turns the code into an exit
 * status; a library caller can branch on it.
 */

const EXIT_STATUS = {
  "wrong-use": 2,
  "output-exists": 2,
  unreadable: 3,
  "unsupported-format": 3,
  "too-large": 3,
  "bad-json": 3,
  "output-unwritable": 3,
  "record-missing": 3,
  "record-damaged": 3,
  "record-exists": 3,
  "card-not-found": 4,
  "card-untrusted": 4,
  "registration-failed": 4,
  "frames-differ": 4,
  "station-not-found": 4,
  "station-moved": 4,
  "spots-not-found": 4,
  overexposed: 4,
  "same-picture": 4,
  "blank-darker": 4,
  "too-little-print": 4,
} as const;

export type ErrorCode = keyof typeof EXIT_STATUS;

export interface ErrorContext {
  /** What to do about it, one sentence in the imperative. */
  readonly remedy: string;
  /** The file (or option) the error is about. */
  readonly input?: string | undefined;
  readonly cause?: unknown;
}

/**
 * An error that the user can mend.
 * The message says what was expected, for which input, and what was received; the remedy says what to do.
 */
export class LastrinseError extends Error {
  override readonly name = "LastrinseError";
  readonly code: ErrorCode;
  readonly remedy: string;
  readonly input: string | null;

  constructor(code: ErrorCode, message: string, context: ErrorContext) {
    super(message, context.cause === undefined ? undefined : { cause: context.cause });
    this.code = code;
    this.remedy = context.remedy;
    this.input = context.input ?? null;
  }

  get exitStatus(): number {
    return EXIT_STATUS[this.code];
  }
}

/** A measurement that is poor but possible: travels in the result, never thrown, never printed by the library. */
export interface Warning {
  readonly code: WarningCode;
  readonly message: string;
}

export type WarningCode =
  | "clipping"
  | "uneven-light"
  | "tone-differs"
  | "order-swapped"
  | "bench-unread"
  | "card-doubtful"
  | "paper-doubtful"
  | "no-paper"
  | "small-measured-share"
  | "patch-left-out"
  | "differences-only"
  | "under-filled-range"
  | "no-profile"
  | "no-dpi"
  | "state-assumed"
  | "low-resolution"
  | "too-dark"
  | "saturated"
  | "turbid"
  | "evidence-contradicted"
  | "not-settled"
  | "no-card"
  | "below-range"
  | "above-range"
  | "readings-differ"
  | "glare"
  | "approximate-colour"
  | "slanted-frames"
  | "weak-registration"
  | "reference-file"
  | "event-damaged"
  | "input-missing"
  | "input-changed"
  | "side-not-scanned"
  | "not-measured"
  | "sheet-outline"
  | "too-little-print"
  | "coated-stock"
  | "paper-from-lights"
  | "more-than-three-colours"
  | "redeposited";
