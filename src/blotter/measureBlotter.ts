import type { Box } from "../grid/box.ts";
import type { Point } from "../numeric/point.ts";
import { correctionTables } from "../calibrate/correctionTables.ts";
import type { Correction } from "../calibrate/correction.ts";
import { labOfMean } from "../calibrate/labOfMean.ts";
import { planesToLab } from "../calibrate/planesToLab.ts";
import { ciede2000 } from "../colour/ciede2000.ts";
import { labToXyzD50 } from "../colour/lab.ts";
import type { Triple } from "../numeric/triple.ts";
import { LastrinseError } from "../errors.ts";
import { codeBox } from "../raster/codeBox.ts";
import { linearPlanes } from "../raster/linearPlanes.ts";
import type { Planes } from "../grid/planes.ts";
import type { Raster } from "../raster/raster.ts";
import { fillPolygon } from "../grid/fillPolygon.ts";
import { findWetSpots } from "./findWetSpots.ts";
import { type BlotterGrade, gradeBlotterSpot } from "./gradeBlotterSpot.ts";

/** One of the two spots. */
export interface BlotterSpot {
  /** CIELAB D50 of the mean light. */
  readonly lab: Triple;
  /** Left, top, width, height, pixels. */
  readonly boxPixels: Box;
  /** Standard error of the mean from its parts, in dE00. */
  readonly sigmaDeltaE00: number;
}

export interface BlotterReading extends BlotterGrade {
  readonly control: BlotterSpot;
  readonly spot: BlotterSpot;
}

export interface BlotterBoxes {
  /** Inside the spot blotted off the ink. */
  readonly spotBox: Box;
  /** Inside the spot of the liquid alone. */
  readonly controlBox: Box;
}

/** Long side of the picture in which spots are looked for. */
const WORKING_SIDE = 640;

/** A box is read in about this many cells a side. */
const CELLS_A_SIDE = 12;

/** Parts of a spot for its own scatter. */
const PARTS = 8;

/** Two drops of one pipette: their areas differ less than this. */
const LARGEST_AREA_RATIO = 5;

/**
 * Reads a photo of a blotter test: the spot blotted off an ink beside a spot of the liquid alone.
 * @param correction Of this photo, by the card in it.
 * @param boxes Where the spots are; the light is then taken as even. Without them they are looked for: the control is the one nearer
 * the dry blotter, and the dry blotter takes uneven light out.
 * @param cardOutline Of the card, pixels, so that its patches are not taken for spots; null where none is in the photo.
 * @param file Named in messages.
 * @throws {LastrinseError} `spots-not-found` unless exactly two round spots of like size stand on one blotter; `wrong-use` for a box
 * outside the photo.
 */
export function measureBlotter(
  raster: Raster,
  correction: Correction,
  boxes: BlotterBoxes | null,
  cardOutline: readonly Point[] | null,
  file: string,
): BlotterReading {
  const [control, spot] =
    boxes === null
      ? foundSpots(raster, correction, cardOutline, file)
      : [boxes.controlBox, boxes.spotBox].map((box) => spotInBox(raster, correction, box, file));
  return { ...gradeBlotterSpot(control.lab, spot.lab), control, spot };
}

function foundSpots(
  raster: Raster,
  correction: Correction,
  cardOutline: readonly Point[] | null,
  file: string,
): [BlotterSpot, BlotterSpot] {
  const step = Math.max(1, Math.max(raster.width, raster.height) / WORKING_SIDE);
  const planes = linearPlanes(raster, correctionTables(correction, raster.bitDepth), step);
  const { width, height } = planes;
  const [L, a, b] = planesToLab(planes, correction);
  const excluded = new Uint8Array(width * height);
  if (cardOutline !== null) fillPolygon(excluded, planes, cardOutline, 1);
  const spots = findWetSpots({ width, height, L, a, b }, excluded);
  const areas = spots.map((spot) => spot.cells.length);
  if (spots.length !== 2 || Math.max(...areas) > LARGEST_AREA_RATIO * Math.min(...areas))
    throw new LastrinseError(
      "spots-not-found",
      `Expected two round wet spots of like size on one blotter in ${file}, received ${spots.length === 2 ? "two of very different size" : `${spots.length} spots`}.`,
      {
        remedy:
          "Photograph a blotter with nothing on it but the spot off the ink and a spot of the liquid alone, both wet, some centimetres apart; or say where they are with a box for each.",
        input: file,
      },
    );
  const byDistance = spots.slice().sort((p, q) => p.distance - q.distance);
  const lightThere = labToXyzD50(byDistance[0].ground)[1];
  const [control, spot] = byDistance.map(({ cells, box, ground }): BlotterSpot => {
    const [x, y, w, h] = box;
    // Both spots in the light of the control: the dry blotter beside each tells how much there is.
    const gain = lightThere / labToXyzD50(ground)[1];
    return {
      ...spotOfCells(planes, correction, cells, gain),
      boxPixels: [x * planes.stepX, y * planes.stepY, w * planes.stepX, h * planes.stepY],
    };
  });
  return [control, spot];
}

function spotInBox(raster: Raster, correction: Correction, box: Box, file: string): BlotterSpot {
  const x = Math.round(box[0]);
  const y = Math.round(box[1]);
  const width = Math.round(box[2]);
  const height = Math.round(box[3]);
  const inside = x >= 0 && y >= 0 && x + width <= raster.width && y + height <= raster.height;
  if (!inside || width < 4 || height < 4)
    throw new LastrinseError(
      "wrong-use",
      `Expected a box of at least 4 x 4 pixels inside ${file} (${raster.width} x ${raster.height}), received ${box.join(",")}.`,
      {
        remedy: "Give left, top, width and height in pixels of the upright photo.",
        input: file,
      },
    );
  const cut = codeBox(raster, { x, y, width, height });
  const step = Math.max(1, Math.min(width, height) / CELLS_A_SIDE);
  const planes = linearPlanes(cut, correctionTables(correction, raster.bitDepth), step);
  const cells = Array.from(planes.channels[0].keys());
  return { ...spotOfCells(planes, correction, cells), boxPixels: box };
}

function spotOfCells(
  { channels }: Planes,
  correction: Correction,
  cells: readonly number[],
  gain = 1,
): Omit<BlotterSpot, "boxPixels"> {
  const labOf = (part: readonly number[]): Triple => {
    const sum = [0, 0, 0];
    for (const i of part) for (let c = 0; c < 3; c++) sum[c] += channels[c][i];
    return labOfMean(correction, [
      (gain * sum[0]) / part.length,
      (gain * sum[1]) / part.length,
      (gain * sum[2]) / part.length,
    ]);
  };
  const lab = labOf(cells);
  const size = Math.ceil(cells.length / PARTS);
  const parts: number[] = [];
  for (let i = 0; i < cells.length; i += size)
    parts.push(ciede2000(lab, labOf(cells.slice(i, i + size))));
  const squares = parts.reduce((sum, distance) => sum + distance * distance, 0);
  return {
    lab,
    sigmaDeltaE00: Math.sqrt(squares / Math.max(1, parts.length - 1) / parts.length),
  };
}
