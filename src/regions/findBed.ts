import type { Triple } from "../numeric/triple.ts";
import type { LabImage } from "../grid/labImage.ts";
import { labHistogram } from "./labHistogram.ts";
import { labelPixels } from "./labelPixels.ts";
import { seekModes } from "./seekModes.ts";
import { touchedSides } from "./touchedSides.ts";
import { sheetBeside } from "./sheetBeside.ts";
import type { Strips } from "./bedStrips.ts";
import { bedTolerance, growBed } from "./growBed.ts";
import { hasPaperRim } from "./hasPaperRim.ts";
import { BED_BANDWIDTH } from "./bedColour.ts";

/** A bed covers at least this part of one of the strips. */
export const LEAST_STRIP_SHARE = 0.04;
/** The card lies on the bed: a colour that covers this much of the strip around it is the bed. */
const AROUND_CARD_SHARE = 0.6;
/** Lids are white, grey or black. Paper of this age is yellow (b* 8 and more), inks are stronger still. */
const NEUTRAL_CHROMA = 6;
/** No lid is as strong as this, however dirty. */
const MOST_BED_CHROMA = 16;
/** Printed black and dark grey lie here. A bed that dark must show on two sides of the frame, lest it be a printed band. */
const LEAST_INK_BLACK_L = 15;
const MOST_INK_BLACK_L = 40;
/** It shows on a side when it covers this part of it. */
const LEAST_SIDE_SHARE = 0.5;

export interface FoundBed {
  readonly lab: Triple;
  readonly sheet: Uint8Array;
}

/** The scanner bed of a frame and the sheet that lies on it; null when none is seen. */
export function findBed(image: LabImage, valid: Uint8Array, strips: Strips): FoundBed | null {
  const modes = seekModes(labHistogram(image, strips.where), BED_BANDWIDTH);
  const labels = labelPixels(
    image,
    strips.where,
    modes.map((mode) => mode.lab),
  );
  const inFrame = modes.map(() => 0);
  const aroundCard = modes.map(() => 0);
  for (let i = 0; i < labels.length; i++)
    if (labels[i] > 0) (strips.where[i] === 1 ? inFrame : aroundCard)[labels[i] - 1]++;

  const candidates = modes
    .map((mode, k) => ({
      lab: mode.lab,
      frame: inFrame[k] / Math.max(1, strips.frameCells),
      card: aroundCard[k] / Math.max(1, strips.cardCells),
    }))
    .filter(({ frame, card }) => frame >= LEAST_STRIP_SHARE || card >= LEAST_STRIP_SHARE)
    .sort((p, q) => q.frame + q.card - (p.frame + p.card));
  const cardBed = candidates.find(({ card }) => card >= AROUND_CARD_SHARE);

  for (const { lab, card } of cardBed === undefined ? candidates : [cardBed]) {
    const distance = distanceFrom(image, lab);
    const tolerance = bedTolerance(distance, valid);
    const bed = growBed(image, valid, strips.where, distance, tolerance);
    const sheet = sheetBeside(bed, valid, image);
    if (sheet === null) continue;
    if (card >= AROUND_CARD_SHARE || canBeBed(lab, bed, sheet, image)) return { lab, sheet };
  }
  return null;
}

/** Whether a colour that does not surround the card can be the bed. */
function canBeBed(lab: Triple, bed: Uint8Array, sheet: Uint8Array, image: LabImage): boolean {
  const chroma = Math.hypot(lab[1], lab[2]);
  if (chroma > MOST_BED_CHROMA) return false;
  if (lab[0] > LEAST_INK_BLACK_L && lab[0] < MOST_INK_BLACK_L) {
    const sides = touchedSides(bed, image.width, image.height);
    if (sides.filter(([, share]) => share >= LEAST_SIDE_SHARE).length < 2) return false;
  }
  return chroma <= NEUTRAL_CHROMA || hasPaperRim(image, sheet, lab);
}

function distanceFrom(image: LabImage, [L, a, b]: Triple): Float32Array {
  const distance = new Float32Array(image.L.length);
  for (let i = 0; i < distance.length; i++)
    distance[i] = Math.sqrt((image.L[i] - L) ** 2 + (image.a[i] - a) ** 2 + (image.b[i] - b) ** 2);
  return distance;
}
