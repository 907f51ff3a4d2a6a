import { LastrinseError } from "../../errors.ts";
import { findStripes, type StripeGrid } from "./findStripes.ts";
import type { LightBox } from "../optics/lightBox.ts";
import { MOVED_REMEDY } from "../place/stationMoved.ts";

/** Stripes must explain this share of what varies in a box; square stripes alone reach 0.9 with two harmonics. */
export const LEAST_EXPLAINED = 0.6;

/** What is asked of a box of stripes. */
export interface StripeSearch {
  /** Expected, in pixels; periods within the range are tried, as shares of it. */
  readonly period: number;
  readonly range: readonly [number, number];
  /** Named in messages, with the place in the photo. */
  readonly file: string;
  readonly where: string;
  /** Code of the refusal: in a bath's photo missing stripes mean that something was moved since the blank. */
  readonly missing: "station-not-found" | "station-moved";
}

/**
 * The stripes in a box, which must be there.
 * @throws {LastrinseError} `missing` where no stripes are clear.
 */
export function clearStripes(
  box: LightBox,
  { period, range, file, where, missing }: StripeSearch,
): StripeGrid {
  const grid = findStripes(box, period, range);
  if (grid === null || grid.explained < LEAST_EXPLAINED)
    throw new LastrinseError(
      missing,
      `Expected stripes ${period.toFixed(1)} pixels apart ${where} in ${file}${missing === "station-moved" ? ", as in the blank" : ""}, received none that are clear.`,
      {
        remedy:
          missing === "station-moved"
            ? MOVED_REMEDY
            : "Check that the striped backing shows past both sides of the jar and through the fresh bath, in focus, and that the boxes of the station file are those of this set-up.",
        input: file,
      },
    );
  return grid;
}
