import type { Triple } from "../numeric/triple.ts";
import { complement } from "../grid/complement.ts";
import { components } from "../grid/components.ts";
import { farFrom } from "../grid/farFrom.ts";
import type { Polygon } from "../grid/fillPolygon.ts";
import { fillPolygon } from "../grid/fillPolygon.ts";
import type { LabImage } from "../grid/labImage.ts";
import { labHistogram } from "./labHistogram.ts";
import { labelPixels } from "./labelPixels.ts";
import { reduceLab } from "../grid/reduceLab.ts";
import { seekModes } from "./seekModes.ts";

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
/** Kept clear around the card: its own rim and its shadow. */
const CARD_MARGIN_MM = 2;
/** Width of the strips along the frame and around the card in which the bed is looked for. */
const STRIP_MM = 3;
/** Colours of these strips: a bed is even, so its colour is narrow. */
const BED_BANDWIDTH = 3;
/** A bed covers at least this part of one of the strips. */
const LEAST_STRIP_SHARE = 0.04;
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
/** Bounds for the colour distance from the bed up to which a cell may be bed. */
const LEAST_TOLERANCE = 2;
const MOST_TOLERANCE = 9;
/** The bed is followed only through gaps wider than twice this, so that it can't leak through a thin light spot. */
const GAP_MM = 0.6;
/** Threads, dust and rulers at the sheet's rim are cut off by an opening of this radius. */
const OPENING_MM = 1.5;
/** A sheet takes at least this part of the frame (its card left out). */
const LEAST_SHEET_SHARE = 0.08;
/** A sheet is convex but for tears and losses: parts of sheet area and of bed area in the sheet's convex hull. */
const LEAST_SOLIDITY = 0.85;
const MOST_BED_INSIDE = 0.3;
/** A shadow at the sheet's edge is a dark line at most this wide, darker than both its sides by 2 L* or more. */
const SHADOW_MM = 1.6;
const SHADOW_DEPTH = 2;
/** Rim of the sheet in which bare paper is expected where the bed itself looks like paper. */
const RIM_MM = 4;

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

interface Strips {
  /** 1 in the strip along the frame, 2 in the strip around the card. */
  readonly where: Uint8Array;
  readonly frameCells: number;
  readonly cardCells: number;
}

function bedStrips(image: LabImage, card: Uint8Array, valid: Uint8Array): Strips {
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

interface FoundBed {
  readonly lab: Triple;
  readonly sheet: Uint8Array;
}

function findBed(image: LabImage, valid: Uint8Array, strips: Strips): FoundBed | null {
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

/** Cells like the bed that hang together with the strips through gaps that are not too narrow. */
function growBed(
  image: LabImage,
  valid: Uint8Array,
  where: Uint8Array,
  distance: Float32Array,
  tolerance: number,
): Uint8Array {
  const { width, height, mmPerCell } = image;
  const size = width * height;
  const unlike = new Uint8Array(size);
  for (let i = 0; i < size; i++) unlike[i] = valid[i] === 1 && distance[i] > tolerance ? 1 : 0;
  const gap = Math.max(1.01, GAP_MM / mmPerCell);
  const wide = farFrom(unlike, width, height, gap);
  for (let i = 0; i < size; i++) if (valid[i] === 0) wide[i] = 0;
  const { piece, cells } = components(wide, width, height);
  const reached = new Uint8Array(cells.length);
  for (let i = 0; i < size; i++) if (where[i] !== 0 && piece[i] >= 0) reached[piece[i]] = 1;
  const core = new Uint8Array(size);
  for (let i = 0; i < size; i++) if (piece[i] >= 0 && reached[piece[i]] === 1) core[i] = 1;
  const notNear = farFrom(core, width, height, gap + 0.5);
  const bed = new Uint8Array(size);
  for (let i = 0; i < size; i++)
    bed[i] = valid[i] === 1 && notNear[i] === 0 && unlike[i] === 0 ? 1 : 0;
  return bed;
}

/** The first valley in the distribution of colour distances from the bed. */
function bedTolerance(distance: Float32Array, valid: Uint8Array): number {
  const step = 0.5;
  const counts = new Float64Array(Math.ceil((MOST_TOLERANCE + 4) / step));
  for (let i = 0; i < distance.length; i++) {
    const k = Math.floor(distance[i] / step);
    if (valid[i] === 1 && k < counts.length) counts[k]++;
  }
  const smooth = Array.from(
    counts,
    (_, k) => (counts[Math.max(0, k - 1)] + counts[k] + (counts[k + 1] ?? counts[k])) / 3,
  );
  let peak = 0;
  for (let k = 0; k * step <= LEAST_TOLERANCE; k++) if (smooth[k] > smooth[peak]) peak = k;
  let lowest = peak;
  for (let k = peak + 1; k * step <= MOST_TOLERANCE; k++) {
    if (smooth[k] < smooth[lowest]) lowest = k;
    else if (smooth[k] > 2 * smooth[lowest] && smooth[k] > 0.02 * smooth[peak]) break;
  }
  return Math.min(MOST_TOLERANCE, Math.max(LEAST_TOLERANCE, (lowest + 0.5) * step));
}

/** The largest object beside the bed, opened and without holes; null when it can't be a sheet. */
function sheetBeside(bed: Uint8Array, valid: Uint8Array, image: LabImage): Uint8Array | null {
  const { width, height, mmPerCell } = image;
  const size = width * height;
  let validCells = 0;
  let bedCells = 0;
  const nothing = new Uint8Array(size);
  for (let i = 0; i < size; i++) {
    validCells += valid[i];
    bedCells += bed[i];
    nothing[i] = valid[i] === 1 && bed[i] === 0 ? 0 : 1;
  }
  if (bedCells === 0) return null;
  const radius = OPENING_MM / mmPerCell;
  const core = farFrom(nothing, width, height, radius);
  const away = farFrom(core, width, height, radius);
  const opened = new Uint8Array(size);
  for (let i = 0; i < size; i++) opened[i] = away[i] === 0 && nothing[i] === 0 ? 1 : 0;
  const sheet = largestPiece(opened, width, height);
  if (sheet === null) return null;
  fillHoles(sheet, valid, width, height);

  const hull = convexHull(sheet, width, height);
  let sheetCells = 0;
  let hullCells = 0;
  let bedInside = 0;
  for (let i = 0; i < size; i++) {
    sheetCells += sheet[i];
    if (hull[i] === 0 || valid[i] === 0) continue;
    hullCells++;
    bedInside += bed[i];
  }
  const plausible =
    sheetCells >= LEAST_SHEET_SHARE * validCells &&
    sheetCells >= LEAST_SOLIDITY * hullCells &&
    bedInside <= MOST_BED_INSIDE * bedCells;
  return plausible ? sheet : null;
}

function largestPiece(mask: Uint8Array, width: number, height: number): Uint8Array | null {
  const { piece, cells } = components(mask, width, height);
  if (cells.length === 0) return null;
  let largest = 0;
  for (let k = 1; k < cells.length; k++) if (cells[k] > cells[largest]) largest = k;
  const out = new Uint8Array(mask.length);
  for (let i = 0; i < out.length; i++) if (piece[i] === largest) out[i] = 1;
  return out;
}

/** Fills what is enclosed by the mask, in place; cells that are not valid stay out. */
function fillHoles(mask: Uint8Array, valid: Uint8Array, width: number, height: number): void {
  const { piece, cells } = components(complement(mask), width, height);
  const open = new Uint8Array(cells.length);
  const touch = (i: number): void => {
    if (piece[i] >= 0) open[piece[i]] = 1;
  };
  for (let x = 0; x < width; x++) {
    touch(x);
    touch((height - 1) * width + x);
  }
  for (let y = 0; y < height; y++) {
    touch(y * width);
    touch(y * width + width - 1);
  }
  for (let i = 0; i < mask.length; i++)
    if (piece[i] >= 0 && open[piece[i]] === 0 && valid[i] === 1) mask[i] = 1;
}

/** Cells inside the convex hull of a mask (Andrew's monotone chain over the ends of the rows). */
function convexHull(mask: Uint8Array, width: number, height: number): Uint8Array {
  const points: [number, number][] = [];
  for (let y = 0; y < height; y++) {
    const first = mask.subarray(y * width, (y + 1) * width).indexOf(1);
    if (first < 0) continue;
    points.push([first, y], [mask.subarray(y * width, (y + 1) * width).lastIndexOf(1), y]);
  }
  points.sort((p, q) => p[0] - q[0] || p[1] - q[1]);
  const chain = (ordered: readonly [number, number][]): [number, number][] => {
    const hull: [number, number][] = [];
    for (const [x, y] of ordered) {
      while (hull.length >= 2) {
        const [ax, ay] = hull[hull.length - 2];
        const [bx, by] = hull[hull.length - 1];
        if ((bx - ax) * (y - ay) - (by - ay) * (x - ax) > 0) break;
        hull.pop();
      }
      hull.push([x, y]);
    }
    return hull.slice(0, -1);
  };
  const corners = [...chain(points), ...chain([...points].reverse())];
  const hull = mask.slice();
  fillPolygon(hull, { width, height, stepX: 1, stepY: 1 }, corners, 1);
  return hull;
}

/** Whether most of the sheet's rim (where the frame does not cut it) is one light colour: bare paper beside the bed. */
function hasPaperRim(image: LabImage, sheet: Uint8Array, bed: Triple): boolean {
  const { width, height, mmPerCell } = image;
  const reach = Math.round(RIM_MM / mmPerCell);
  const inner = farFrom(complement(sheet), width, height, reach);
  const rim = new Uint8Array(sheet.length);
  let cells = 0;
  for (let i = 0; i < rim.length; i++)
    if (sheet[i] === 1 && inner[i] === 0) {
      rim[i] = 1;
      cells++;
    }
  const modes = seekModes(labHistogram(image, rim), BED_BANDWIDTH);
  const labels = labelPixels(
    image,
    rim,
    modes.map((mode) => mode.lab),
  );
  const count = new Float64Array(modes.length + 1);
  for (let i = 0; i < labels.length; i++) count[labels[i]]++;
  const LEAST_PAPER_L = 60;
  const MOST_PAPER_CHROMA = 35;
  return modes.some(
    ({ lab }, k) =>
      count[k + 1] >= 0.5 * cells &&
      lab[0] >= LEAST_PAPER_L &&
      Math.hypot(lab[1], lab[2]) <= MOST_PAPER_CHROMA &&
      Math.hypot(lab[0] - bed[0], lab[1] - bed[1], lab[2] - bed[2]) >= LEAST_TOLERANCE,
  );
}

/** Takes the shadow line off the sheet's edge, in place: cells near the bed that are darker than what lies on both sides. */
function peelShadow(image: LabImage, sheet: Uint8Array): void {
  const { width, height, mmPerCell, L } = image;
  const reach = Math.max(1, Math.round(SHADOW_MM / mmPerCell));
  const deep = farFrom(complement(sheet), width, height, SHADOW_MM / mmPerCell);
  const shadow: number[] = [];
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      if (sheet[i] === 0 || deep[i] === 1) continue;
      const isShadow = [
        [1, 0],
        [0, 1],
      ].some(([dx, dy]) => {
        let darker = 0;
        for (const sign of [-1, 1]) {
          let lightest = -Infinity;
          for (let k = 1; k <= 2 * reach; k++) {
            const u = x + sign * k * dx;
            const v = y + sign * k * dy;
            if (u < 0 || u >= width || v < 0 || v >= height) break;
            lightest = Math.max(lightest, L[v * width + u]);
          }
          if (lightest - L[i] >= SHADOW_DEPTH) darker++;
        }
        return darker === 2;
      });
      if (isShadow) shadow.push(i);
    }
  for (const i of shadow) sheet[i] = 0;
  const rest = largestPiece(sheet, width, height);
  if (rest !== null) sheet.set(rest);
}

/** Part of each side of the frame that a mask touches. */
function touchedSides(
  mask: Uint8Array,
  width: number,
  height: number,
): (readonly [string, number])[] {
  let top = 0;
  let bottom = 0;
  let left = 0;
  let right = 0;
  for (let x = 0; x < width; x++) {
    top += mask[x];
    bottom += mask[(height - 1) * width + x];
  }
  for (let y = 0; y < height; y++) {
    left += mask[y * width];
    right += mask[y * width + width - 1];
  }
  return [
    ["upper", top / width],
    ["lower", bottom / width],
    ["left", left / height],
    ["right", right / height],
  ];
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

/**
 * Takes cells off the rim, in place, whose colour is nearer to the bed's than to that of the sheet a little further in: the
 * blocks of the search lay astride the sheet's edge.
 */
function trimRim(image: LabImage, mask: Uint8Array, blockMm: number, bed: Triple): void {
  const { width, height, mmPerCell, L, a, b } = image;
  const outside = complement(mask);
  const inner = farFrom(outside, width, height, (2 * blockMm) / mmPerCell);
  const step = Math.round((3 * blockMm) / mmPerCell);
  const distance2 = (i: number, p: number, q: number, r: number): number =>
    (L[i] - p) ** 2 + (a[i] - q) ** 2 + (b[i] - r) ** 2;
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      if (mask[i] === 0 || inner[i] === 1) continue;
      let toSheet = Infinity;
      const compare = (j: number): void => {
        if (inner[j] === 1) toSheet = Math.min(toSheet, distance2(i, L[j], a[j], b[j]));
      };
      if (x >= step) compare(i - step);
      if (x + step < width) compare(i + step);
      if (y >= step) compare(i - step * width);
      if (y + step < height) compare(i + step * width);
      if (distance2(i, bed[0], bed[1], bed[2]) < toSheet) mask[i] = 0;
    }
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
