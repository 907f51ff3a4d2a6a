import type { Triple } from "../colour/triple.ts";
import { LastrinseError } from "../errors.ts";
import type { Raster } from "../raster/raster.ts";
import { edgeAt, findStripes, phaseShift, type StripeGrid } from "./findStripes.ts";
import { type LightBox, lightBox, type LightTable } from "./lightBox.ts";
import { trimBox } from "./trimBox.ts";
import type { Box, Station } from "./station.ts";
import { stripeLevels, type StripeLevels } from "./stripeLevels.ts";

/** A photo ready for reading. */
export interface LitPhoto {
  readonly file: string;
  readonly raster: Raster;
  readonly table: LightTable;
}

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

/** Stripes must explain this share of what varies in a box; square stripes alone reach 0.9 with two harmonics. */
const LEAST_EXPLAINED = 0.6;

/** The stripes' place may differ by this share of a narrow period; more means that something was moved. */
const LARGEST_SHIFT = 0.12;

/** Beside the jar the scale may differ this much before the phase at the box's ends gives it away. */
const BESIDE_RANGE = [0.96, 1.04] as const;

/** Through the liquid the backing looks nearer, so larger. */
const THROUGH_RANGE = [0.97, 1.08] as const;
const NARROW_RANGE = [0.985, 1.015] as const;

/** Without fine stripes: the share of the wide period that the narrow one has on the printed backing. */
const NARROW_SHARE = 0.3;

/** How far stripes may shift, in pixels. */
export function largestShift(station: Station): number {
  const { wide, narrow } = station.stripes;
  return LARGEST_SHIFT * (narrow?.periodPixels ?? NARROW_SHARE * wide.periodPixels);
}

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
  const { wide, narrow, besideLeft, besideRight } = station.stripes;
  const left = boxOf(photo, besideLeft, "left of the jar");
  const right = boxOf(photo, besideRight, "right of the jar");
  const leftGrid = gridIn(left, wide.periodPixels, BESIDE_RANGE, photo, "left of the jar");
  const rightGrid = gridIn(right, wide.periodPixels, BESIDE_RANGE, photo, "right of the jar");
  const { wideBox, narrowBox } = jarBoxes(photo, station);
  const wideGrid = gridIn(wideBox, wide.periodPixels, THROUGH_RANGE, photo, "through the jar");
  const scale = wideGrid.period / wide.periodPixels;
  const narrowGrid =
    narrow && narrowBox && findStripes(narrowBox, scale * narrow.periodPixels, NARROW_RANGE);

  const shiftsFrom = (edge: number): number[] =>
    [leftGrid, rightGrid].flatMap((grid, i) =>
      endShifts([left, right][i], grid, edge, wide.periodPixels),
    );
  let shifts = shiftsFrom(wide.firstWhiteY);
  if (largest(shifts) > tolerance) {
    // A file may give the middle of the first white stripe for its upper edge. Then both periods say so, each by a quarter of
    // its own; a backing that was moved can't do that.
    const asMiddle = shiftsFrom(wide.firstWhiteY - wide.periodPixels / 4);
    const narrowAgrees =
      narrow && narrowGrid
        ? Math.abs(
            phaseShift(
              narrowGrid.edgeY,
              narrow.firstWhiteY - narrow.periodPixels / 4,
              narrow.periodPixels,
            ),
          ) <
          narrow.periodPixels / 5
        : true;
    if (narrowAgrees) shifts = asMiddle;
  }
  if (largest(shifts) > tolerance)
    throw moved(photo.file, largest(shifts), tolerance, "the station file");
  return levelsOf(photo, { left, right, wideBox, narrowBox }, { leftGrid, rightGrid, wideGrid, narrowGrid }); // prettier-ignore
}

/**
 * Reads a spent bath with the blank's stripes, moved along by what the stripes beside the jar have shifted.
 * @throws {LastrinseError} As for the blank; `station-moved` also where the stripes through the jar lie elsewhere.
 */
export function readSampleStripes(
  photo: LitPhoto,
  station: Station,
  blank: StripeReading,
): StripeReading {
  const { wide, besideLeft, besideRight } = station.stripes;
  const tolerance = largestShift(station);
  const left = boxOf(photo, besideLeft, "left of the jar");
  const right = boxOf(photo, besideRight, "right of the jar");
  const leftGrid = gridIn(
    left,
    wide.periodPixels,
    BESIDE_RANGE,
    photo,
    "left of the jar",
    "station-moved",
  );
  const rightGrid = gridIn(
    right,
    wide.periodPixels,
    BESIDE_RANGE,
    photo,
    "right of the jar",
    "station-moved",
  );
  const shifts = [
    ...endShifts(left, leftGrid, edgeAt(blank.leftGrid, leftGrid.x), blank.leftGrid.period),
    ...endShifts(right, rightGrid, edgeAt(blank.rightGrid, rightGrid.x), blank.rightGrid.period),
  ];
  if (largest(shifts) > tolerance) throw moved(photo.file, largest(shifts), tolerance, "the blank");
  const leftShift = (shifts[0] + shifts[1]) / 2;
  const perColumn = ((shifts[2] + shifts[3]) / 2 - leftShift) / (rightGrid.x - leftGrid.x);
  const along = (grid: StripeGrid): StripeGrid => ({
    ...grid,
    edgeY: grid.edgeY + leftShift + perColumn * (grid.x - leftGrid.x),
    tilt: grid.tilt + perColumn,
  });
  const { wideBox, narrowBox } = jarBoxes(photo, station);
  const wideGrid = along(blank.wideGrid);
  const narrowGrid = blank.narrowGrid && along(blank.narrowGrid);
  for (const [box, grid] of [
    [wideBox, wideGrid],
    [narrowBox, narrowGrid],
  ] as const) {
    const seen = box && grid && findStripes(box, grid.period);
    if (!seen || seen.explained < LEAST_EXPLAINED) continue;
    const shift = phaseShift(seen.edgeY, edgeAt(grid, seen.x), grid.period);
    if (Math.abs(shift) > tolerance)
      throw moved(photo.file, Math.abs(shift), tolerance, "the blank, seen through the jar,");
  }
  return levelsOf(photo, { left, right, wideBox, narrowBox }, { leftGrid, rightGrid, wideGrid, narrowGrid }); // prettier-ignore
}

/** Levels of the stripes beside the jar at any place of the photo, on the plane through both sides. */
export function besideAt(
  { left, right }: StripeReading,
  x: number,
  y: number,
): { readonly white: Triple; readonly contrast: Triple } {
  const share = (x - left.x) / (right.x - left.x);
  const at = (level: Triple, slope: Triple, middle: number): number[] =>
    level.map((value, c) => value + slope[c] * (y - middle));
  const between = (a: number[], b: number[]): Triple =>
    a.map((value, c) => value + share * (b[c] - value)) as unknown as Triple;
  return {
    white: between(
      at(left.white, left.whiteSlope, left.y),
      at(right.white, right.whiteSlope, right.y),
    ),
    contrast: between(
      at(left.contrast, left.contrastSlope, left.y),
      at(right.contrast, right.contrastSlope, right.y),
    ),
  };
}

function boxOf(photo: LitPhoto, box: Box, where: string): LightBox {
  const found = lightBox(photo.raster, box, photo.table);
  if (found === null)
    throw new LastrinseError(
      "station-not-found",
      `Expected a box of stripes ${where} inside ${photo.file} (${photo.raster.width} x ${photo.raster.height} pixels), received one at ${box.map((value) => value.toFixed(0)).join(",")}.`,
      {
        remedy:
          "Use the station file made for photos of this camera and size, or leave it out and photograph the jar in front of the printed backing.",
        input: photo.file,
      },
    );
  return found;
}

function gridIn(
  box: LightBox,
  period: number,
  range: readonly [number, number],
  photo: LitPhoto,
  where: string,
  missing: "station-not-found" | "station-moved" = "station-not-found",
): StripeGrid {
  const grid = findStripes(box, period, range);
  if (grid === null || grid.explained < LEAST_EXPLAINED)
    throw new LastrinseError(
      missing,
      `Expected stripes ${period.toFixed(1)} pixels apart ${where} in ${photo.file}${missing === "station-moved" ? ", as in the blank" : ""}, received none that are clear.`,
      {
        remedy:
          missing === "station-moved"
            ? MOVED_REMEDY
            : "Check that the striped backing shows past both sides of the jar and through the fresh bath, in focus, and that the boxes of the station file are those of this set-up.",
        input: photo.file,
      },
    );
  return grid;
}

const MOVED_REMEDY =
  "Jar, backing or camera moved: put them back and photograph again, or photograph a new blank in this position.";

function jarBoxes(
  photo: LitPhoto,
  station: Station,
): { readonly wideBox: LightBox; readonly narrowBox: LightBox | null } {
  const { wide, narrow } = station.stripes;
  return {
    wideBox: boxOf(photo, trimBox(station, wide), "through the jar"),
    narrowBox: narrow && boxOf(photo, trimBox(station, narrow), "through the jar"),
  };
}

/** Shift of the stripes at top and bottom of a box against edges expected at `edge` + whole `period`s. */
function endShifts(box: LightBox, grid: StripeGrid, edge: number, period: number): number[] {
  return [box.y, box.y + box.height - 1].map((end) => {
    const expected = edge + period * Math.round((end - edge) / period);
    return phaseShift(grid.edgeY, expected, grid.period);
  });
}

function largest(shifts: readonly number[]): number {
  return Math.max(...shifts.map(Math.abs));
}

function moved(file: string, shift: number, tolerance: number, against: string): LastrinseError {
  return new LastrinseError(
    "station-moved",
    `Expected the stripes in ${file} where ${against} has them, received stripes shifted by ${shift.toFixed(1)} pixels (limit ${tolerance.toFixed(1)}).`,
    { remedy: MOVED_REMEDY, input: file },
  );
}

function levelsOf(
  photo: LitPhoto,
  boxes: {
    readonly left: LightBox;
    readonly right: LightBox;
    readonly wideBox: LightBox;
    readonly narrowBox: LightBox | null;
  },
  grids: {
    readonly leftGrid: StripeGrid;
    readonly rightGrid: StripeGrid;
    readonly wideGrid: StripeGrid;
    readonly narrowGrid: StripeGrid | null;
  },
): StripeReading {
  const levels = (box: LightBox, grid: StripeGrid): StripeLevels => {
    const read = stripeLevels(box, grid);
    if (read === null)
      throw new LastrinseError(
        "station-not-found",
        `Expected white and black stripes in every column of a box in ${photo.file}, received a box too small for them.`,
        {
          remedy: "Fill the jar higher, or photograph it larger.",
          input: photo.file,
        },
      );
    return read;
  };
  const { wideBox, narrowBox } = boxes;
  const half = Math.floor(wideBox.height / 2);
  const halves =
    half >= grids.wideGrid.period
      ? [rowsOf(wideBox, 0, half), rowsOf(wideBox, wideBox.height - half, half)]
      : null;
  return {
    ...grids,
    left: levels(boxes.left, grids.leftGrid),
    right: levels(boxes.right, grids.rightGrid),
    wide: levels(wideBox, grids.wideGrid),
    wideHalves: halves && [levels(halves[0], grids.wideGrid), levels(halves[1], grids.wideGrid)],
    narrow: narrowBox && grids.narrowGrid && stripeLevels(narrowBox, grids.narrowGrid),
  };
}

function rowsOf(box: LightBox, from: number, height: number): LightBox {
  const cut = (plane: Float32Array): Float32Array =>
    plane.subarray(from * box.width, (from + height) * box.width);
  const [r, g, b] = box.light;
  return { ...box, y: box.y + from, height, light: [cut(r), cut(g), cut(b)] };
}
