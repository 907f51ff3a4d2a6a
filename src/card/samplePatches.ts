import type { Point } from "../numeric/point.ts";
import { decodeSrgb } from "../colour/srgb.ts";
import type { Triple } from "../numeric/triple.ts";
import { type Matrix3, invert3 } from "../numeric/matrix3.ts";
import { MAD_TO_SD, median } from "../numeric/statistics.ts";
import { codeBox } from "../raster/codeBox.ts";
import type { Raster } from "../raster/raster.ts";
import { rowSource, type RowSource } from "../raster/rowSource.ts";
import type { Card, PatchSample, PlacedCard } from "./card.ts";
import { applyHomography, fitHomography } from "./homography.ts";

/** Share of the pitch that is read, about the centre: stays off edges even when the place is wrong by a tenth of the pitch. */
export const SAMPLED_SHARE = 0.44;

/** Dust and scratches are looked for between cells of a patch, not between pixels: a halftone is no dust. */
const MOST_CELLS_A_SIDE = 8;

/** A cell of fewer pixels a side says too little. */
const FEWEST_PIXELS_A_CELL_SIDE = 2;

/** A cell is dust when it lies further from the median cell than this many robust standard deviations, in any channel ... */
const DUST_DEVIATIONS = 3.5;

/** ... and further than this share of the patch's own value plus a constant: even patches of files without noise keep all cells. */
const DUST_SHARE = 0.02;
const DUST_FLOOR = 0.001;

/** Code values at which a pixel counts as clipped, as shares of full scale. */
const CLIPPED_HIGH = 252 / 255;
const CLIPPED_LOW = 2 / 255;

/** Map from (column, row) of the card, patch centres at whole numbers, to pixels. */
export function latticeToPixels(card: Card, placed: Pick<PlacedCard, "centres">): Matrix3 {
  const H = fitHomography(latticePoints(card), placed.centres);
  if (H === null) throw new RangeError("Expected patch centres that span a plane.");
  return H;
}

/** (column, row) of every patch, row-major. */
export function latticePoints({ rows, columns }: Card): Point[] {
  return Array.from({ length: rows * columns }, (_, i): Point => [
    i % columns,
    Math.floor(i / columns),
  ]);
}

const tables = new Map<number, Float64Array>();

/** Linear light of every code value of a bit depth. */
function decodingTable(bitDepth: 8 | 16): Float64Array {
  let table = tables.get(bitDepth);
  if (table === undefined) {
    const full = 2 ** bitDepth - 1;
    table = Float64Array.from({ length: full + 1 }, (_, code) => decodeSrgb(code / full));
    tables.set(bitDepth, table);
  }
  return table;
}

/**
 * What a frame shows of every patch of a placed card: the inner 44 % of the pitch in the card's own perspective, full
 * resolution, decoded by the inverse sRGB curve before averaging. Cells of a patch that stand out (dust, a scratch, a glint)
 * are left out of mean and deviation, and only of those.
 * @returns One sample a patch, row-major. A patch without a pixel inside the frame has `pixels` 0 and NaN elsewhere.
 */
export function samplePatches(
  raster: Raster | RowSource,
  card: Card,
  placed: PlacedCard,
): PatchSample[] {
  const source = rowSource(raster);
  const H = latticeToPixels(card, placed);
  const inverse = invert3(H);
  return latticePoints(card).map((centre, i) =>
    samplePatch(source, H, inverse, centre, card.patches[i].name),
  );
}

function samplePatch(
  source: RowSource,
  H: Matrix3,
  inverse: Matrix3,
  [column, row]: Point,
  name: string,
): PatchSample {
  const { width, height, bitDepth } = source;
  const half = SAMPLED_SHARE / 2;
  const outline = [
    applyHomography(H, [column - half, row - half]),
    applyHomography(H, [column + half, row - half]),
    applyHomography(H, [column + half, row + half]),
    applyHomography(H, [column - half, row + half]),
  ];
  const sides = outline.map(([x, y], i) =>
    Math.hypot(outline[(i + 1) % 4][0] - x, outline[(i + 1) % 4][1] - y),
  );
  const cells = Math.max(
    1,
    Math.min(MOST_CELLS_A_SIDE, Math.floor(Math.min(...sides) / FEWEST_PIXELS_A_CELL_SIDE)),
  );
  const x0 = Math.max(0, Math.ceil(Math.min(...outline.map(([x]) => x))));
  const x1 = Math.min(width - 1, Math.floor(Math.max(...outline.map(([x]) => x))));
  const y0 = Math.max(0, Math.ceil(Math.min(...outline.map(([, y]) => y))));
  const y1 = Math.min(height - 1, Math.floor(Math.max(...outline.map(([, y]) => y))));

  // Per cell: pixels, sums of R G B, sums of their squares.
  const sums = new Float64Array(7 * cells * cells);
  const decode = decodingTable(bitDepth);
  const full = 2 ** bitDepth - 1;
  const high = Math.ceil(CLIPPED_HIGH * full);
  const low = Math.floor(CLIPPED_LOW * full);
  const boxWidth = x1 - x0 + 1;
  const boxHeight = y1 - y0 + 1;
  const data =
    boxWidth > 0 && boxHeight > 0
      ? codeBox(source, { x: x0, y: y0, width: boxWidth, height: boxHeight }).data
      : new Uint8Array(0);
  const [a, b, c, d, e, f, g, h, k] = inverse;
  const toCell = cells / SAMPLED_SHARE;
  let pixels = 0;
  let clippedHigh = 0;
  let clippedLow = 0;
  for (let y = y0; y <= y1; y++) {
    for (let x = x0; x <= x1; x++) {
      const w = g * x + h * y + k;
      const u = (a * x + b * y + c) / w - column + half;
      const v = (d * x + e * y + f) / w - row + half;
      if (!(u >= 0 && v >= 0 && u < SAMPLED_SHARE && v < SAMPLED_SHARE)) continue;
      const at = 3 * ((y - y0) * boxWidth + x - x0);
      const red = data[at];
      const green = data[at + 1];
      const blue = data[at + 2];
      pixels++;
      if (red >= high || green >= high || blue >= high) clippedHigh++;
      if (red <= low || green <= low || blue <= low) clippedLow++;
      const cell =
        7 * (Math.min(cells - 1, Math.floor(v * toCell)) * cells + Math.min(cells - 1, Math.floor(u * toCell))); // prettier-ignore
      const R = decode[red];
      const G = decode[green];
      const B = decode[blue];
      sums[cell]++;
      sums[cell + 1] += R;
      sums[cell + 2] += G;
      sums[cell + 3] += B;
      sums[cell + 4] += R * R;
      sums[cell + 5] += G * G;
      sums[cell + 6] += B * B;
    }
  }
  const kept = sumOfCleanCells(sums);
  const average = (channel: number): number => kept[1 + channel] / kept[0];
  const deviation = (channel: number): number => {
    const squares = kept[4 + channel] - kept[0] * average(channel) ** 2;
    return Math.sqrt(Math.max(0, squares) / (kept[0] - 1));
  };
  return {
    name,
    linear: [average(0), average(1), average(2)] as Triple,
    deviation: [deviation(0), deviation(1), deviation(2)] as Triple,
    clippedHigh: clippedHigh / pixels,
    clippedLow: clippedLow / pixels,
    pixels: kept[0],
  };
}

/** Adds up the cells whose mean does not stand out from the median cell in any channel. */
function sumOfCleanCells(sums: Float64Array): Float64Array {
  const filled: number[] = [];
  for (let cell = 0; cell < sums.length; cell += 7) if (sums[cell] > 0) filled.push(cell);
  const dusty = new Set<number>();
  for (let channel = 1; channel <= 3; channel++) {
    const means = filled.map((cell) => sums[cell + channel] / sums[cell]);
    const middle = median(means);
    const spread = MAD_TO_SD * median(means.map((value) => Math.abs(value - middle)));
    const limit = Math.max(DUST_DEVIATIONS * spread, DUST_SHARE * middle + DUST_FLOOR);
    means.forEach((value, i) => {
      if (Math.abs(value - middle) > limit) dusty.add(filled[i]);
    });
  }
  const total = new Float64Array(7);
  for (const cell of filled)
    if (!dusty.has(cell)) for (let j = 0; j < 7; j++) total[j] += sums[cell + j];
  return total;
}
