import type { Point } from "../../src/numeric/point.ts";
import { CHART24_SPECTRA } from "../../calibration/chart24-spectra.ts";

export const CARD_ROWS = 4;
export const CARD_COLUMNS = 6;
/** Side of a patch as a share of the pitch; the rest is the black frame. */
const PATCH_SIDE = 0.82;
/** Black frame beyond the outermost patch cells, as a share of the pitch. */
const FRAME = 0.14;
/** Reflectance of the black frame: matt black paint. */
const FRAME_REFLECTANCE = 0.035;

/** Where the 24-patch card lies in a frame. */
export interface CardPlacement {
  /** Middle of the card in mm of the frame. */
  readonly middle: Point;
  /** Clockwise. */
  readonly angleDegrees: number;
  /** Distance of patch centres in mm. */
  readonly pitchMm: number;
}

/** Width and height of the card over its black frame, in mm. */
export function cardSize(pitchMm: number): [number, number] {
  return [(CARD_COLUMNS + 2 * FRAME) * pitchMm, (CARD_ROWS + 2 * FRAME) * pitchMm];
}

/** Reflectances of the card's surfaces at 400 to 700 nm by 10: the 24 patches, then the black frame. */
export const CARD_REFLECTANCES: readonly (readonly number[])[] = [
  // The measured spectra run from 380 to 730 nm by 10.
  ...CHART24_SPECTRA.map((spectrum) => spectrum.slice(2, 33)),
  new Array<number>(31).fill(FRAME_REFLECTANCE),
];

const FRAME_SURFACE = CARD_ROWS * CARD_COLUMNS;

/**
 * The card's surface at a place of the frame.
 * @returns Index into {@link CARD_REFLECTANCES}, -1 beside the card.
 */
export function cardSurface(card: CardPlacement): (x: number, y: number) => number {
  const angle = (card.angleDegrees * Math.PI) / 180;
  const c = Math.cos(angle) / card.pitchMm;
  const s = Math.sin(angle) / card.pitchMm;
  const [mx, my] = card.middle;
  return (x, y) => {
    const u = (x - mx) * c + (y - my) * s + CARD_COLUMNS / 2;
    const v = -(x - mx) * s + (y - my) * c + CARD_ROWS / 2;
    if (u < -FRAME || v < -FRAME || u > CARD_COLUMNS + FRAME || v > CARD_ROWS + FRAME) return -1;
    const column = Math.floor(u);
    const row = Math.floor(v);
    const onPatch =
      Math.abs(u - column - 0.5) < PATCH_SIDE / 2 && Math.abs(v - row - 0.5) < PATCH_SIDE / 2;
    if (!onPatch || column < 0 || row < 0 || column >= CARD_COLUMNS || row >= CARD_ROWS)
      return FRAME_SURFACE;
    return row * CARD_COLUMNS + column;
  };
}

/** Centres of the corner patches in mm of the frame: first and last of row 1, last and first of row 4. */
export function cardCorners(card: CardPlacement): [Point, Point, Point, Point] {
  const angle = (card.angleDegrees * Math.PI) / 180;
  const at = (column: number, row: number): Point => {
    const u = (column + 0.5 - CARD_COLUMNS / 2) * card.pitchMm;
    const v = (row + 0.5 - CARD_ROWS / 2) * card.pitchMm;
    return [
      card.middle[0] + u * Math.cos(angle) - v * Math.sin(angle),
      card.middle[1] + u * Math.sin(angle) + v * Math.cos(angle),
    ];
  };
  return [
    at(0, 0),
    at(CARD_COLUMNS - 1, 0),
    at(CARD_COLUMNS - 1, CARD_ROWS - 1),
    at(0, CARD_ROWS - 1),
  ];
}
