import type { LitPhoto } from "../optics/linearPhoto.ts";
import { clearStripes, LEAST_EXPLAINED } from "./clearStripes.ts";
import { edgeAt } from "./edgeAt.ts";
import { endShifts } from "./endShifts.ts";
import { findStripes, type StripeGrid } from "./findStripes.ts";
import { largestShift } from "./largestShift.ts";
import { levelsOfBoxes } from "./levelsOfBoxes.ts";
import { phaseShift } from "./phaseShift.ts";
import { BESIDE_RANGE } from "./readBlankStripes.ts";
import type { Station } from "../place/station.ts";
import { stationMoved } from "../place/stationMoved.ts";
import { stripeBoxes } from "./stripeBoxes.ts";
import type { StripeReading } from "./stripeReading.ts";

/**
 * Reads a spent bath with the blank's stripes, moved along by what the stripes beside the jar have shifted.
 * @throws {LastrinseError} As for the blank; `station-moved` also where the stripes through the jar lie elsewhere.
 */
export function readSampleStripes(
  photo: LitPhoto,
  station: Station,
  blank: StripeReading,
): StripeReading {
  const { file } = photo;
  const tolerance = largestShift(station);
  const boxes = stripeBoxes(photo, station);
  const beside = (side: "left" | "right"): StripeGrid =>
    clearStripes(boxes[side], {
      period: station.stripes.wide.periodPixels,
      range: BESIDE_RANGE,
      file,
      where: `${side} of the jar`,
      missing: "station-moved",
    });
  const leftGrid = beside("left");
  const rightGrid = beside("right");
  const shifts = [
    ...endShifts(boxes.left, leftGrid, edgeAt(blank.leftGrid, leftGrid.x), blank.leftGrid.period),
    ...endShifts(
      boxes.right,
      rightGrid,
      edgeAt(blank.rightGrid, rightGrid.x),
      blank.rightGrid.period,
    ),
  ];
  const worst = Math.max(...shifts.map(Math.abs));
  if (worst > tolerance) throw stationMoved(file, worst, tolerance, "the blank");

  const leftShift = (shifts[0] + shifts[1]) / 2;
  const perColumn = ((shifts[2] + shifts[3]) / 2 - leftShift) / (rightGrid.x - leftGrid.x);
  const along = (grid: StripeGrid): StripeGrid => ({
    ...grid,
    edgeY: grid.edgeY + leftShift + perColumn * (grid.x - leftGrid.x),
    tilt: grid.tilt + perColumn,
  });
  const wideGrid = along(blank.wideGrid);
  const narrowGrid = blank.narrowGrid && along(blank.narrowGrid);
  for (const [box, grid] of [
    [boxes.wide, wideGrid],
    [boxes.narrow, narrowGrid],
  ] as const) {
    const seen = box && grid && findStripes(box, grid.period);
    // Through a dark or cloudy bath there may be nothing clear to compare.
    if (!seen || seen.explained < LEAST_EXPLAINED) continue;
    const shift = Math.abs(phaseShift(seen.edgeY, edgeAt(grid, seen.x), grid.period));
    if (shift > tolerance)
      throw stationMoved(file, shift, tolerance, "the blank, seen through the jar,");
  }
  return levelsOfBoxes(file, boxes, { leftGrid, rightGrid, wideGrid, narrowGrid });
}
