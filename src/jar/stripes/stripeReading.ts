import type { StripeGrid } from "./findStripes.ts";
import type { StripeLevels } from "./stripeLevels.ts";

/** All stripes of one photo. */
export interface StripeReading {
  readonly left: StripeLevels;
  readonly right: StripeLevels;
  readonly leftGrid: StripeGrid;
  readonly rightGrid: StripeGrid;
  readonly wide: StripeLevels;
  readonly wideGrid: StripeGrid;
  /** Upper and lower half of the wide box; null where a half is lower than a period. */
  readonly wideHalves: readonly [StripeLevels, StripeLevels] | null;
  readonly narrow: StripeLevels | null;
  readonly narrowGrid: StripeGrid | null;
}
