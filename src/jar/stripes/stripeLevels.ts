import type { Triple } from "../../numeric/triple.ts";
import { MAD_TO_SD, median } from "../../numeric/statistics.ts";
import { edgeAt } from "./edgeAt.ts";
import type { StripeGrid } from "./findStripes.ts";
import type { LightBox } from "../optics/lightBox.ts";

/** Linear light of white and black stripes at the middle of a box, medians over its columns. */
export interface StripeLevels {
  /** Middle of the box in the photo, pixels. */
  readonly x: number;
  readonly y: number;
  readonly white: Triple;
  readonly black: Triple;
  readonly contrast: Triple;
  /** Change of white and of contrast per row downwards. */
  readonly whiteSlope: Triple;
  readonly contrastSlope: Triple;
  /** Robust standard deviation of the columns' contrasts, as a share of the contrast, green. */
  readonly columnSpread: number;
  /** Share of columns whose green contrast differs from the median by more than a tenth: glare, scratches, drops. */
  readonly oddColumns: number;
  /** Median code (0..255) of the white stripes, per channel. */
  readonly whiteCode: Triple;
  /** Share of white pixels at full scale in any channel. */
  readonly clipped: number;
}

/** Left out at each end of a stripe, as a share of the period: edges are blurred by lens and JPEG. */
const EDGE_SHARE = 0.1;

/** Codes from here count as full scale. */
const FULL_SCALE_CODE = 254;

const ODD_SHARE = 0.1;

/**
 * Reads the stripes of a box column by column: a straight line through the white rows and one through the black rows, both read
 * at the middle of the box, then the median over columns. The lines take up a light gradient; the median takes out glare.
 * @returns null where a box holds fewer than two columns with both kinds of row.
 */
export function stripeLevels(box: LightBox, grid: StripeGrid): StripeLevels | null {
  const { width, height } = box;
  const middleY = (height - 1) / 2;
  const { white, black, codeSums, clipped } = columnSums(box, grid);
  const whites: number[][] = [[], [], []];
  const blacks: number[][] = [[], [], []];
  const contrasts: number[][] = [[], [], []];
  const whiteSlopes: number[][] = [[], [], []];
  const contrastSlopes: number[][] = [[], [], []];
  const whiteCodes: number[][] = [[], [], []];
  for (let x = 0; x < width; x++) {
    if (white.count[x] < 2 || black.count[x] < 2) continue;
    for (let c = 0; c < 3; c++) {
      const w = lineAt(white, x, c);
      const k = lineAt(black, x, c);
      whites[c].push(w.level);
      blacks[c].push(k.level);
      contrasts[c].push(w.level - k.level);
      whiteSlopes[c].push(w.slope);
      contrastSlopes[c].push(w.slope - k.slope);
      whiteCodes[c].push(codeSums[c][x] / white.count[x]);
    }
  }
  if (contrasts[0].length < 2) return null;
  const green = median(contrasts[1]);
  const deviations = contrasts[1].map((contrast) => Math.abs(contrast - green));
  return {
    x: box.x + (width - 1) / 2,
    y: box.y + middleY,
    white: medians(whites),
    black: medians(blacks),
    contrast: medians(contrasts),
    whiteSlope: medians(whiteSlopes),
    contrastSlope: medians(contrastSlopes),
    columnSpread: (MAD_TO_SD * median(deviations)) / Math.abs(green),
    oddColumns:
      deviations.filter((deviation) => deviation > ODD_SHARE * Math.abs(green)).length /
      deviations.length,
    whiteCode: medians(whiteCodes),
    clipped,
  };
}

function medians(channels: readonly number[][]): Triple {
  return [median(channels[0]), median(channels[1]), median(channels[2])];
}

/** Sums for a straight line in every column: over rows t from the middle, over light v of each channel. */
interface Sums {
  readonly count: Float64Array;
  readonly t: Float64Array;
  readonly tt: Float64Array;
  readonly v: readonly Float64Array[];
  readonly tv: readonly Float64Array[];
}

function columnSums(
  { x: left, y: top, width, height, light, raster }: LightBox,
  grid: StripeGrid,
): { white: Sums; black: Sums; codeSums: Float64Array[]; clipped: number } {
  const columns = (): Float64Array => new Float64Array(width);
  const three = (): Float64Array[] => [columns(), columns(), columns()];
  const sums = (): Sums => ({ count: columns(), t: columns(), tt: columns(), v: three(), tv: three() }); // prettier-ignore
  const white = sums();
  const black = sums();
  const codeSums = three();
  const edges = Float64Array.from({ length: width }, (_, x) => edgeAt(grid, left + x) - top);
  const toByte = 255 / (2 ** raster.bitDepth - 1);
  const fullScale = FULL_SCALE_CODE / toByte;
  let clipped = 0;
  let whitePixels = 0;
  for (let y = 0; y < height; y++) {
    const t = y - (height - 1) / 2;
    for (let x = 0; x < width; x++) {
      const turns = (y - edges[x]) / grid.period;
      const u = turns - Math.floor(turns);
      const inWhite = u >= EDGE_SHARE && u <= 0.5 - EDGE_SHARE;
      if (!inWhite && !(u >= 0.5 + EDGE_SHARE && u <= 1 - EDGE_SHARE)) continue;
      const into = inWhite ? white : black;
      const i = y * width + x;
      into.count[x]++;
      into.t[x] += t;
      into.tt[x] += t * t;
      for (let c = 0; c < 3; c++) {
        const value = light[c][i];
        into.v[c][x] += value;
        into.tv[c][x] += t * value;
      }
      if (!inWhite) continue;
      const at = 3 * ((top + y) * raster.width + left + x);
      const { data } = raster;
      for (let c = 0; c < 3; c++) codeSums[c][x] += toByte * data[at + c];
      whitePixels++;
      if (data[at] >= fullScale || data[at + 1] >= fullScale || data[at + 2] >= fullScale)
        clipped++;
    }
  }
  return { white, black, codeSums, clipped: clipped / Math.max(1, whitePixels) };
}

/** Straight line of one column by least squares, read at t = 0. */
function lineAt(sums: Sums, x: number, c: number): { level: number; slope: number } {
  const n = sums.count[x];
  const t = sums.t[x];
  const v = sums.v[c][x];
  const spread = n * sums.tt[x] - t * t;
  const slope = spread > 0 ? (n * sums.tv[c][x] - t * v) / spread : 0;
  return { level: (v - slope * t) / n, slope };
}
