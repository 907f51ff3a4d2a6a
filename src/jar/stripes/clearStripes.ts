import { LastrinseError } from "../../errors.ts";
import { findStripes, type StripeGrid } from "./findStripes.ts";
import type { LightBox } from "../optics/lightBox.ts";
import { MOVED_REMEDY } from "../place/stationMoved.ts";

/** Stripes must explain this share of what varies in a box; square stripes alone reach 0.9 with two harmonics. */
export const LEAST_EXPLAINED = 0.6;

/**
 * The stripes in a box, which must be there.
 * @param range Periods tried, as shares of `period`.
 * @param file Named in messages, with `where` in the photo.
 * @param missing Code of the refusal: in a bath's photo missing stripes mean that something was moved since the blank.
 * @throws {LastrinseError} `missing` where no stripes are clear.
 */
export function clearStripes(
  box: LightBox,
  period: number,
  range: readonly [number, number],
  file: string,
  where: string,
  missing: "station-not-found" | "station-moved",
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
