import type { ColourImage, Quadrilateral } from "../vision/quadrilateral.ts";
import type { Point } from "../numeric/point.ts";
import type { Matrix3 } from "../numeric/matrix3.ts";
import { multiply3 } from "../numeric/matrix3.ts";
import { codeBox } from "../raster/codeBox.ts";
import type { Raster } from "../raster/raster.ts";
import type { RowSource } from "../raster/rowSource.ts";
import type { RgbImage } from "../raster/rgbAt.ts";
import { rgbAt } from "../raster/rgbAt.ts";
import { findQuadrilaterals } from "../vision/findQuadrilaterals.ts";
import type { Card } from "./card.ts";
import { fitHomographyRobust } from "./fitHomographyRobust.ts";
import { applyHomography } from "./homography.ts";
import { latticePoints } from "./samplePatches.ts";

/** The card is drawn straight at this many pixels a pitch: enough for centres to a hundredth of the pitch, and quick. */
const PITCH = 45;

/** Pitches drawn beyond the outermost patch centres. */
const MARGIN = 1;

/**
 * Pitches kept about the guess when the card is cut out of the frame: a guess may be off by most of a pitch at its far end.
 * Less where the horizon is near.
 */
const CUT_MARGINS = [2, 1, 0.6];

const PLANES = ["grey", "red", "green", "blue"] as const;

const ROUNDS = 4;

/** Settled when no patch centre moves by more than this share of the pitch. */
const SETTLED = 0.01;

/** A shape belongs to a patch when its middle lies this close to where the patch is expected, in pitches ... */
const REACH = 0.35;

/** ... and its side is between these shares of the pitch. */
const SHORTEST_SIDE = 0.5;
const LONGEST_SIDE = 1;

/** A patch counts in the fit when it lies this close to the common map, in pitches. */
const AGREEMENT = 0.06;

/** With fewer patches seen, the first guess is as good as the refined one. */
const FEWEST_PATCHES = 7;

/**
 * Refines the place of a card: draws it straight, looks for its patches there, fits again, until nothing moves.
 * @param toPixels First guess: (column, row) to pixels of the raster.
 * @returns The refined map; the last good one where too few patches were seen.
 */
export async function refineCard(
  raster: Raster | RowSource,
  card: Card,
  toPixels: Matrix3,
): Promise<Matrix3> {
  const lattice = latticePoints(card);
  const source = cutOut(raster, card, toPixels);
  let H = toPixels;
  for (let round = 0; source !== null && round < ROUNDS; round++) {
    const image = drawStraight(source, card, H);
    const quads = await findQuadrilaterals({ image, planes: PLANES });
    const correction = fitPatches(quads, lattice);
    if (correction === null) return H;
    H = multiply3(H, correction);
    const moved = lattice.map((p) => {
      const [x, y] = applyHomography(correction, p);
      return Math.hypot(x - p[0], y - p[1]);
    });
    if (Math.max(...moved) < SETTLED) return H;
  }
  return H;
}

/** The map from true (column, row) to the (column, row) that the first guess says; null where too few patches agree. */
function fitPatches(quads: readonly Quadrilateral[], lattice: readonly Point[]): Matrix3 | null {
  const from: Point[] = [];
  const to: Point[] = [];
  for (const patch of lattice) {
    // Several masks see the same patch, a little larger or smaller: each of them votes.
    for (const { centre, side } of quads) {
      const seen: Point = [centre[0] / PITCH - MARGIN, centre[1] / PITCH - MARGIN];
      const size = side / PITCH;
      if (Math.hypot(seen[0] - patch[0], seen[1] - patch[1]) > REACH) continue;
      if (size < SHORTEST_SIDE || size > LONGEST_SIDE) continue;
      from.push(patch);
      to.push(seen);
    }
  }
  const fit = fitHomographyRobust(from, to, AGREEMENT);
  if (fit === null) return null;
  const patches = new Set(fit.inliers.map((k) => from[k]));
  return patches.size < FEWEST_PATCHES ? null : fit.H;
}

/** A part of a frame, reduced. */
interface CutOut {
  readonly image: RgbImage;
  /** Its upper left pixel in the frame. */
  readonly x: number;
  readonly y: number;
}

/**
 * The part of the frame that holds the card, reduced by area means to about the pitch drawn, so that no pixel between the
 * samples is lost; null where the guess points outside or beyond the horizon.
 */
function cutOut(raster: Raster | RowSource, { columns, rows }: Card, H: Matrix3): CutOut | null {
  const outlines = CUT_MARGINS.map((margin): Point[] => {
    const right = columns - 1 + margin;
    const bottom = rows - 1 + margin;
    return [[-margin, -margin], [right, -margin], [right, bottom], [-margin, bottom]]; // prettier-ignore
  });
  const outline = outlines.find((points) =>
    points.every(([x, y]) => H[6] * x + H[7] * y + H[8] > 0),
  );
  if (outline === undefined) return null;
  const corners = outline.map((corner) => applyHomography(H, corner));
  const x = Math.max(0, Math.floor(Math.min(...corners.map(([cx]) => cx))));
  const y = Math.max(0, Math.floor(Math.min(...corners.map(([, cy]) => cy))));
  const x1 = Math.min(raster.width - 1, Math.ceil(Math.max(...corners.map(([cx]) => cx))));
  const y1 = Math.min(raster.height - 1, Math.ceil(Math.max(...corners.map(([, cy]) => cy))));
  if (!(x1 > x && y1 > y)) return null;
  const pitch = farPitch(H, columns, rows);
  const box = codeBox(raster, { x, y, width: x1 - x + 1, height: y1 - y + 1 });
  const step = Math.max(1, pitch / PITCH);
  return { image: rgbAt(box, Math.max(box.width, box.height) / step), x, y };
}

/** Pixels a pitch along the side of the card that shows smallest: what is kept there is enough everywhere. */
function farPitch(H: Matrix3, columns: number, rows: number): number {
  const corners = ([[0, 0], [columns - 1, 0], [columns - 1, rows - 1], [0, rows - 1]] as const).map((corner) => applyHomography(H, corner)); // prettier-ignore
  const sides = corners.map(([x, y], k) =>
    Math.hypot(corners[(k + 1) % 4][0] - x, corners[(k + 1) % 4][1] - y),
  );
  return Math.min(...sides.map((side, k) => side / (k % 2 === 0 ? columns - 1 : rows - 1)));
}

/** The card and a margin about it, seen straight from above. */
function drawStraight({ image, x: x0, y: y0 }: CutOut, card: Card, H: Matrix3): ColourImage {
  const width = Math.round((card.columns - 1 + 2 * MARGIN) * PITCH) + 1;
  const height = Math.round((card.rows - 1 + 2 * MARGIN) * PITCH) + 1;
  const [a, b, c, d, e, f, g, h, k] = multiply3(H, [1 / PITCH, 0, -MARGIN, 0, 1 / PITCH, -MARGIN, 0, 0, 1]); // prettier-ignore
  const pixels = new Uint8Array(3 * width * height);
  for (let y = 0, at = 0; y < height; y++)
    for (let x = 0; x < width; x++, at += 3) {
      const w = g * x + h * y + k;
      const sx = ((a * x + b * y + c) / w - x0 + 0.5) / image.step - 0.5;
      const sy = ((d * x + e * y + f) / w - y0 + 0.5) / image.step - 0.5;
      bilinear(image, sx, sy, pixels, at);
    }
  return { pixels, width, height };
}

/** Bilinear between pixels; the border pixel is held outside. */
function bilinear(
  { pixels, width, height }: ColourImage,
  x: number,
  y: number,
  out: Uint8Array,
  at: number,
): void {
  const cx = Math.min(width - 1, Math.max(0, x));
  const cy = Math.min(height - 1, Math.max(0, y));
  const left = Math.min(Math.max(0, width - 2), Math.floor(cx));
  const top = Math.min(Math.max(0, height - 2), Math.floor(cy));
  const fx = cx - left;
  const fy = cy - top;
  const a = 3 * (top * width + left);
  const b = a + (width > 1 ? 3 : 0);
  const down = height > 1 ? 3 * width : 0;
  for (let c = 0; c < 3; c++) {
    const upper = pixels[a + c] * (1 - fx) + pixels[b + c] * fx;
    const lower = pixels[a + down + c] * (1 - fx) + pixels[b + down + c] * fx;
    out[at + c] = upper * (1 - fy) + lower * fy + 0.5;
  }
}
