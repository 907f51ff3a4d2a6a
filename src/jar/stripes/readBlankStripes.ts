import type { LitPhoto } from "../optics/linearPhoto.ts";
import { clearStripes } from "./clearStripes.ts";
import { endShifts } from "./endShifts.ts";
import { findStripes } from "./findStripes.ts";
import { largestShift } from "./largestShift.ts";
import { levelsOfBoxes } from "./levelsOfBoxes.ts";
import { phaseShift } from "./phaseShift.ts";
import type { Station } from "../place/station.ts";
import { stationMoved } from "../place/stationMoved.ts";
import { stripeBoxes } from "./stripeBoxes.ts";
import type { StripeReading } from "./stripeReading.ts";

/** Beside the jar the scale may differ this much before the phase at the box's ends gives it away. */
export const BESIDE_RANGE = [0.96, 1.04] as const;

/** Through the liquid the backing looks nearer, so larger. */
const THROUGH_RANGE = [0.97, 1.08] as const;
const NARROW_RANGE = [0.985, 1.015] as const;

/**
 * Reads the blank: finds the stripes beside the jar where the station expects them and, through the jar, wherever refraction puts
 * them.
 * @param tolerance Allowed shift against the station, pixels.
 * @throws {LastrinseError} `station-not-found` where a box holds no stripes or leaves the photo, `station-moved` where they lie
 * elsewhere.
 */
export function readBlankStripes(
  photo: LitPhoto,
  station: Station,
  tolerance = largestShift(station),
): StripeReading {
  const { wide, narrow } = station.stripes;
  const { file } = photo;
  const boxes = stripeBoxes(photo, station);
  const clear = (
    box: keyof Omit<typeof boxes, "narrow">,
    range: readonly [number, number],
    where: string,
  ): ReturnType<typeof clearStripes> =>
    clearStripes(boxes[box], {
      period: wide.periodPixels,
      range,
      file,
      where,
      missing: "station-not-found",
    });
  const leftGrid = clear("left", BESIDE_RANGE, "left of the jar");
  const rightGrid = clear("right", BESIDE_RANGE, "right of the jar");
  const wideGrid = clear("wide", THROUGH_RANGE, "through the jar");
  const scale = wideGrid.period / wide.periodPixels;
  const narrowGrid =
    narrow && boxes.narrow && findStripes(boxes.narrow, scale * narrow.periodPixels, NARROW_RANGE);

  const shiftFrom = (edge: number): number =>
    largest([
      ...endShifts(boxes.left, leftGrid, edge, wide.periodPixels),
      ...endShifts(boxes.right, rightGrid, edge, wide.periodPixels),
    ]);
  let shift = shiftFrom(wide.firstWhiteY);
  if (shift > tolerance) {
    // A file may give the middle of the first white stripe for its upper edge. Then both periods say so, each by a quarter of
    // its own; a backing that was moved can't do that.
    const narrowAgrees =
      !narrow ||
      !narrowGrid ||
      Math.abs(
        phaseShift(
          narrowGrid.edgeY,
          narrow.firstWhiteY - narrow.periodPixels / 4,
          narrow.periodPixels,
        ),
      ) <
        narrow.periodPixels / 5;
    if (narrowAgrees) shift = Math.min(shift, shiftFrom(wide.firstWhiteY - wide.periodPixels / 4));
  }
  if (shift > tolerance) throw stationMoved(file, shift, tolerance, "the station file");
  return levelsOfBoxes(file, boxes, { leftGrid, rightGrid, wideGrid, narrowGrid });
}

function largest(shifts: readonly number[]): number {
  return Math.max(...shifts.map(Math.abs));
}
