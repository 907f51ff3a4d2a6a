import type { Point } from "../../numeric/point.ts";
import { JAR_BACKING } from "../../../calibration/jar-backing.ts";
import { applyHomography, fitHomography } from "../../card/homography.ts";
import { LastrinseError } from "../../errors.ts";
import type { Matrix3 } from "../../numeric/matrix3.ts";
import type { Raster } from "../../raster/raster.ts";
import { findNestedSquares, type NestedSquares } from "./findNestedSquares.ts";

/** The printed backing in a photo. */
export interface LocatedBacking {
  /** Takes millimetres of the sheet to pixels. */
  readonly toPixels: Matrix3;
  /** Mean scale. */
  readonly pixelsPerMm: number;
  /** Turn of the sheet's upper edge, clockwise. */
  readonly turnDegrees: number;
}

/** The size of each square may differ from what its place on the sheet says by this factor. */
const SIDE_FACTOR = 1.25;

/** Stripes must not lean further: a jar stands upright. */
const LARGEST_TURN_DEGREES = 20;

/** Below this the fine stripes are gone. */
const LEAST_PIXELS_PER_MM = 4;

/** More squares than this make too many fours to try; the largest are kept. */
const MOST_SQUARES = 12;

/**
 * Finds the printed jar backing by its four nested squares, the one with a hole being the top left.
 * @param file Named in messages.
 * @throws {LastrinseError} `station-not-found`: not all four squares are seen, or they are too small, mirrored or far from upright.
 */
export function locateBacking(raster: Raster, file: string): LocatedBacking {
  const squares = findNestedSquares(raster)
    .sort((a, b) => b.side - a.side)
    .slice(0, MOST_SQUARES);
  const refuse = (received: string, remedy: string): never => {
    throw new LastrinseError(
      "station-not-found",
      `Expected the printed jar backing with its four nested squares in ${file}, received ${received}.`,
      { remedy, input: file },
    );
  };
  const best = bestFour(squares);
  if (best === null)
    return refuse(
      squares.length < 4
        ? `${squares.length} nested squares`
        : `${squares.length} nested squares that are not its corners`,
      "Take the photo so that all four corner squares of the backing show, in focus and upright, with the holed one at the top left; or give a station file.",
    );
  if (Math.abs(best.turnDegrees) > LARGEST_TURN_DEGREES)
    return refuse(...turnedBacking(best.turnDegrees));
  if (best.pixelsPerMm < LEAST_PIXELS_PER_MM)
    return refuse(
      `one of ${best.pixelsPerMm.toFixed(1)} pixels a millimetre`,
      `Photograph the backing larger: at least ${LEAST_PIXELS_PER_MM} pixels a millimetre, better 6 to 20.`,
    );
  return best;
}

/** A backing that is not upright: what was received, and the remedy. */
function turnedBacking(degrees: number): [received: string, remedy: string] {
  const away = Math.abs(degrees);
  const lies =
    away > 180 - LARGEST_TURN_DEGREES
      ? "a photo that is upside down: its backing is"
      : Math.abs(away - 90) < LARGEST_TURN_DEGREES
        ? "a photo that lies on its side: its backing is"
        : "one";
  return [
    `${lies} turned by ${degrees.toFixed(0)} degrees`,
    "Turn the picture upright and save it, or photograph again: the holed square belongs at the top left, stripes level. A jar is never photographed lying down.",
  ];
}

/** Of all fours with the holed one as origin, clockwise, the one whose squares have the sizes their sheet says. */
function bestFour(squares: readonly NestedSquares[]): LocatedBacking | null {
  let best: LocatedBacking | null = null;
  let least = Math.log(SIDE_FACTOR);
  const plain = squares.filter((square) => !square.holed);
  for (const origin of squares.filter((square) => square.holed))
    for (const topRight of plain)
      for (const bottomRight of plain)
        for (const bottomLeft of plain) {
          const four = [origin, topRight, bottomRight, bottomLeft];
          if (new Set(four).size < 4) continue;
          const toPixels = sheetMap(four.map((square) => square.centre));
          if (toPixels === null) continue;
          const misfit = sizeMisfit(toPixels, four);
          if (misfit < least) {
            least = misfit;
            best = describe(toPixels);
          }
        }
  return best;
}

/** null unless the four points run clockwise round a convex shape: a mirrored sheet runs the other way. */
function sheetMap(points: readonly Point[]): Matrix3 | null {
  const turnsRight = points.every(([x, y], i) => {
    const [x1, y1] = points[(i + 1) % 4];
    const [x2, y2] = points[(i + 2) % 4];
    return (x1 - x) * (y2 - y1) - (y1 - y) * (x2 - x1) > 0;
  });
  return turnsRight ? fitHomography(JAR_BACKING.fiducialsMm, points) : null;
}

/** Largest log ratio of a square's size to the size the map gives it. */
function sizeMisfit(toPixels: Matrix3, four: readonly NestedSquares[]): number {
  return Math.max(
    ...four.map(({ side }, i) => {
      const expected = JAR_BACKING.fiducialMm * scaleAt(toPixels, JAR_BACKING.fiducialsMm[i]);
      return Math.abs(Math.log(side / expected));
    }),
  );
}

/** Pixels a millimetre about a point: square root of the map's change of area. */
function scaleAt(toPixels: Matrix3, [x, y]: Point): number {
  const at = applyHomography(toPixels, [x, y]);
  const right = applyHomography(toPixels, [x + 1, y]);
  const below = applyHomography(toPixels, [x, y + 1]);
  return Math.sqrt(
    Math.abs((right[0] - at[0]) * (below[1] - at[1]) - (right[1] - at[1]) * (below[0] - at[0])),
  );
}

function describe(toPixels: Matrix3): LocatedBacking {
  const middle: Point = [JAR_BACKING.widthMm / 2, JAR_BACKING.heightMm / 2];
  const left = applyHomography(toPixels, JAR_BACKING.fiducialsMm[0]);
  const right = applyHomography(toPixels, JAR_BACKING.fiducialsMm[1]);
  return {
    toPixels,
    pixelsPerMm: scaleAt(toPixels, middle),
    turnDegrees: (Math.atan2(right[1] - left[1], right[0] - left[0]) * 180) / Math.PI,
  };
}
