import type { Point } from "../numeric/point.ts";
import { fitLightField, type LightField, type LightSample } from "../calibrate/fitLightField.ts";
import { lightAt } from "../calibrate/lightAt.ts";
import type { Triple } from "../numeric/triple.ts";
import { linearPlanes } from "../raster/linearPlanes.ts";
import type { Planes } from "../grid/planes.ts";
import type { RowSource } from "../raster/rowSource.ts";
import { sparseRows } from "../raster/sparseRows.ts";
import { srgbTables } from "../raster/srgbTables.ts";
import { farFrom } from "../grid/farFrom.ts";
import { fillPolygon } from "../grid/fillPolygon.ts";

/** Light over a frame as the scanner bed shows it, relative to the light on the card. */
export interface BedLight {
  readonly field: LightField;
  readonly atCard: Triple;
}

/** Side of the blocks over which the bed is averaged. */
const BLOCK_MM = 3;

/** Blocks of at least so many pixels a side are averaged over every fifth row: the bed is even. */
const SPARSE_STEP = 25;
const SPARSE_ROWS = 5;

/** Kept clear of the sheet and the card: their shadows, and light that they throw back. */
const CLEARANCE_MM = 4;

/** More than this many add nothing to six terms. */
const MOST_SAMPLES = 400;

/** Fewer blocks of bed than this do not carry the six terms of a field round a sheet. */
const FEWEST_SAMPLES = 40;

/** On at least so many sides of the sheet the bed must be seen, by so many blocks: the field is not to be extrapolated. */
const FEWEST_SIDES = 3;
const FEWEST_BLOCKS_A_SIDE = 4;

/** What the field leaves must be less than this share of the light, else the bed is no even surface. */
const MOST_RESIDUAL = 0.02;

/**
 * The light field of a frame from the scanner bed round the sheet: the bed is neither washed nor printed, so it is the control
 * that shows a lamp which has drifted between the card and the sheet.
 * @param mask 1 on the sheet, on `lattice`.
 * @param cardOutline Corners of the card in full pixels.
 * @returns null where too little bed shows round the sheet, or it is not even.
 */
export function bedLight(
  raster: RowSource,
  mask: Uint8Array,
  lattice: Pick<Planes, "width" | "stepX" | "stepY">,
  cardOutline: readonly Point[],
  mmPerPixel: number,
): BedLight | null {
  const step = Math.max(1, BLOCK_MM / mmPerPixel);
  if (step > raster.width || step > raster.height) return null;
  const every = step < SPARSE_STEP ? 1 : SPARSE_ROWS;
  const rows = sparseRows(raster, every);
  const means = linearPlanes(rows, srgbTables(raster.bitDepth), step, step / every);
  const blocks = { ...means, stepY: step };
  const { width, height } = blocks;
  const taken = new Uint8Array(width * height);
  for (let i = 0; i < mask.length; i++) {
    if (mask[i] === 0) continue;
    const row = Math.floor(i / lattice.width);
    const x = Math.floor(((i - row * lattice.width + 0.5) * lattice.stepX) / step);
    const y = Math.floor(((row + 0.5) * lattice.stepY) / step);
    if (x < width && y < height) taken[y * width + x] = 1;
  }
  const box = boxOf(taken, width);
  if (box === null) return null;
  fillPolygon(taken, blocks, cardOutline, 1);
  const free = farFrom(taken, width, height, 1 + CLEARANCE_MM / BLOCK_MM);

  const samples: LightSample[] = [];
  const sides = [0, 0, 0, 0];
  for (let i = 0; i < free.length; i++) {
    if (free[i] === 0) continue;
    const linear: Triple = [blocks.channels[0][i], blocks.channels[1][i], blocks.channels[2][i]];
    if (!linear.every((value) => value > 0)) continue;
    const row = Math.floor(i / width);
    const column = i - row * width;
    samples.push({ x: (column + 0.5) * step - 0.5, y: (row + 0.5) * step - 0.5, linear });
    if (column < box.left) sides[0]++;
    if (column > box.right) sides[1]++;
    if (row < box.top) sides[2]++;
    if (row > box.bottom) sides[3]++;
  }
  const seen = sides.filter((count) => count >= FEWEST_BLOCKS_A_SIDE).length;
  if (samples.length < FEWEST_SAMPLES || seen < FEWEST_SIDES) return null;
  const thinned = Math.ceil(samples.length / MOST_SAMPLES);
  const field = fitLightField(samples.filter((_, i) => i % thinned === 0));
  if (field.rank < 6 || !(field.residualShare <= MOST_RESIDUAL)) return null;
  const x = cardOutline.reduce((sum, point) => sum + point[0], 0) / cardOutline.length;
  const y = cardOutline.reduce((sum, point) => sum + point[1], 0) / cardOutline.length;
  return { field, atCard: lightAt(field, x, y) };
}

function boxOf(
  taken: Uint8Array,
  width: number,
): { left: number; right: number; top: number; bottom: number } | null {
  const first = taken.indexOf(1);
  if (first < 0) return null;
  let left = width;
  let right = 0;
  for (let i = first; i < taken.length; i++) {
    if (taken[i] === 0) continue;
    const column = i % width;
    left = Math.min(left, column);
    right = Math.max(right, column);
  }
  return {
    left,
    right,
    top: Math.floor(first / width),
    bottom: Math.floor(taken.lastIndexOf(1) / width),
  };
}
