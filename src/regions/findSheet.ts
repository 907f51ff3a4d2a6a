import { farFrom } from "../grid/farFrom.ts";
import { type Polygon, fillPolygon } from "../grid/fillPolygon.ts";
import type { LabImage } from "../grid/labImage.ts";
import { reduceLab } from "../grid/reduceLab.ts";
import type { Triple } from "../numeric/triple.ts";
import { bedStrips } from "./bedStrips.ts";
import { CARD_MARGIN_MM } from "./cardMargin.ts";
import { findBed, LEAST_STRIP_SHARE } from "./findBed.ts";
import { peelShadow } from "./peelShadow.ts";
import { touchedSides } from "./touchedSides.ts";
import { trimRim } from "./trimRim.ts";

/** Where the sheet lies in the frame. */
export interface Sheet {
  /** 1 on the sheet, 0 on the bed, on the card, in tears and losses open to the bed, and where there is no data. */
  readonly mask: Uint8Array;
  /** x, y, width, height of the mask in cells; null when no sheet was found. */
  readonly box: readonly [number, number, number, number] | null;
  /** CIELAB D50 of the scanner bed; null when none was seen and the whole frame is taken as the sheet. */
  readonly bedLab: Triple | null;
  readonly notes: readonly string[];
}

/** The search runs on blocks of about this size: fine against a margin, coarse against fibre and screen. */
const WORKING_MM = 0.4;

/**
 * Separates the sheet from the scanner bed.
 *
 * The bed is looked for where it must show if it shows at all: along the frame and around the card. Each even colour
 * found there is tried as the bed: cells like it that hang together with those strips are taken away, and what remains
 * must be one large, nearly convex sheet that the bed surrounds rather than cuts into. So a dark or light printed area
 * that bleeds to the edge of a sheet without bed around it is not mistaken for one. A bed that is not neutral must
 * also surround the card, or leave a rim of lighter or darker paper. If nothing passes, the sheet fills the frame.
 * @param image Low-passed Lab of the frame.
 * @param exclude Outline of the card (and of anything else that lies in the frame), in full pixels.
 */
export function findSheet(image: LabImage, exclude: readonly Polygon[]): Sheet {
  const small = reduceLab(image, Math.max(1, Math.round(WORKING_MM / image.mmPerCell)));
  const { width, height, mmPerCell } = small;
  const card = new Uint8Array(width * height);
  for (const polygon of exclude) fillPolygon(card, small, polygon, 1);
  const valid = new Uint8Array(width * height);
  const offCard = farFrom(card, width, height, CARD_MARGIN_MM / mmPerCell);
  for (let i = 0; i < valid.length; i++)
    valid[i] = offCard[i] === 1 && !Number.isNaN(small.L[i]) ? 1 : 0;

  const strips = bedStrips(small, card, valid);
  const notes: string[] = [];
  const found = findBed(small, valid, strips);
  let sheet: Uint8Array;
  if (found === null) {
    notes.push("No scanner bed was seen: the whole frame is taken as the sheet.");
    sheet = valid;
  } else {
    sheet = found.sheet;
    peelShadow(small, sheet);
  }
  for (const [side, share] of touchedSides(sheet, width, height))
    if (found !== null && share > LEAST_STRIP_SHARE)
      notes.push(`The frame cuts the sheet off on the ${side} side.`);

  const mask = enlarge(sheet, small, image, exclude);
  if (found !== null) trimRim(image, mask, small.mmPerCell, found.lab);
  return { mask, box: boundingBox(mask, image.width), bedLab: found?.lab ?? null, notes };
}

/** The mask at the image's own size: card and cells without data taken out again at full detail. */
function enlarge(
  sheet: Uint8Array,
  small: LabImage,
  image: LabImage,
  exclude: readonly Polygon[],
): Uint8Array {
  const { width, height, mmPerCell, L } = image;
  const factor = Math.round(small.mmPerCell / mmPerCell);
  const card = new Uint8Array(width * height);
  for (const polygon of exclude) fillPolygon(card, image, polygon, 1);
  const offCard =
    exclude.length === 0 ? card.fill(1) : farFrom(card, width, height, CARD_MARGIN_MM / mmPerCell);
  const mask = new Uint8Array(width * height);
  for (let y = 0; y < height; y++) {
    const from = Math.floor(y / factor) * small.width;
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      if (sheet[from + Math.floor(x / factor)] === 1 && offCard[i] === 1 && !Number.isNaN(L[i]))
        mask[i] = 1;
    }
  }
  return mask;
}

function boundingBox(
  mask: Uint8Array,
  width: number,
): readonly [number, number, number, number] | null {
  let x0 = Infinity;
  let x1 = -1;
  let y0 = Infinity;
  let y1 = -1;
  for (let i = 0; i < mask.length; i++) {
    if (mask[i] === 0) continue;
    const x = i % width;
    const y = (i - x) / width;
    if (x < x0) x0 = x;
    if (x > x1) x1 = x;
    if (y < y0) y0 = y;
    if (y > y1) y1 = y;
  }
  return x1 < 0 ? null : [x0, y0, x1 - x0 + 1, y1 - y0 + 1];
}
