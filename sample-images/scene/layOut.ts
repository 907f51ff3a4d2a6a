import type { Point } from "../../src/numeric/point.ts";
import { cardSize } from "./cardFace.ts";
import type { CardPlacement } from "./cardFace.ts";
import type { PairOptions } from "./pairOptions.ts";

/** Bare bed around the sheet and the card. */
const GAP_MM = 8;

/** A frame with room for a sheet and the card. */
export interface Laid {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly middle: Point;
  readonly card: CardPlacement | null;
}

/** How sheet and card were laid on the bed. */
export interface Laying {
  readonly rotationDegrees: number;
  readonly scale: number;
  readonly shiftMm: Point;
  readonly cardAngleDegrees: number;
  /** Left (-1) or right (1) of the middle. */
  readonly cardSide: -1 | 1;
}

/** Sheet above, card below it. */
export function layOut(
  options: PairOptions,
  { rotationDegrees, scale, shiftMm, cardAngleDegrees, cardSide }: Laying,
): Laid {
  const angle = (rotationDegrees * Math.PI) / 180;
  const c = Math.abs(Math.cos(angle)) * scale;
  const s = Math.abs(Math.sin(angle)) * scale;
  const play = options.cockleMm + Math.max(Math.abs(shiftMm[0]), Math.abs(shiftMm[1])) + GAP_MM;
  const halfWidth = (c * options.widthMm + s * options.heightMm) / 2 + play;
  const halfHeight = (s * options.widthMm + c * options.heightMm) / 2 + play;
  const middle: Point = [halfWidth + shiftMm[0], halfHeight + shiftMm[1]];
  const pitchMm = options.cardPitchMm;
  if (pitchMm === null)
    return { widthMm: 2 * halfWidth, heightMm: 2 * halfHeight, middle, card: null };
  const [cardWidth, cardHeight] = cardSize(pitchMm);
  const slack = Math.max(0, halfWidth - cardWidth / 2 - GAP_MM);
  return {
    widthMm: Math.max(2 * halfWidth, cardWidth + 2 * GAP_MM),
    heightMm: 2 * halfHeight + cardHeight + GAP_MM,
    middle,
    card: {
      middle: [
        Math.max(halfWidth, cardWidth / 2 + GAP_MM) + 0.6 * cardSide * slack,
        2 * halfHeight + cardHeight / 2,
      ],
      angleDegrees: cardAngleDegrees,
      pitchMm,
    },
  };
}
