import type { LabImage } from "../grid/labImage.ts";
import { farFrom } from "../grid/farFrom.ts";
import { CARD_MARGIN_MM } from "./cardMargin.ts";

/** Width of the strips along the frame and around the card in which the bed is looked for. */
const STRIP_MM = 3;

export interface Strips {
  /** 1 in the strip along the frame, 2 in the strip around the card. */
  readonly where: Uint8Array;
  readonly frameCells: number;
  readonly cardCells: number;
}

/** The strips along the frame and around the card. */
export function bedStrips(image: LabImage, card: Uint8Array, valid: Uint8Array): Strips {
  const { width, height, mmPerCell } = image;
  const strip = Math.max(2, Math.round(STRIP_MM / mmPerCell));
  const aroundCard = farFrom(card, width, height, (CARD_MARGIN_MM + STRIP_MM) / mmPerCell);
  const where = new Uint8Array(width * height);
  let frameCells = 0;
  let cardCells = 0;
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      if (valid[i] === 0) continue;
      if (Math.min(x, y, width - 1 - x, height - 1 - y) < strip) {
        where[i] = 1;
        frameCells++;
      } else if (aroundCard[i] === 0) {
        where[i] = 2;
        cardCells++;
      }
    }
  return { where, frameCells, cardCells };
}
