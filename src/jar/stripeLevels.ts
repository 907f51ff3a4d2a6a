import type { Triple } from "../colour/triple.ts";
import { median } from "../numeric/statistics.ts";
import { edgeAt, type StripeGrid } from "./findStripes.ts";
import type { LightBox } from "./lightBox.ts";

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
  const { width, height, light, codes } = box;
  const middleY = (height - 1) / 2;
  const kept = (): number[][] => [[], [], []];
  const whites = kept();
  const blacks = kept();
  const contrasts = kept();
  const whiteSlopes = kept();
  const contrastSlopes = kept();
  const whiteCodes = kept();
  const isWhite = new Int8Array(height);
  let clipped = 0;
  let whitePixels = 0;
  for (let x = 0; x < width; x++) {
    const edge = edgeAt(grid, box.x + x) - box.y;
    for (let y = 0; y < height; y++) {
      const turns = (y - edge) / grid.period;
      const u = turns - Math.floor(turns);
      isWhite[y] = core(u) ? 1 : core(u - 0.5) ? 0 : -1;
    }
    for (let c = 0; c < 3; c++) {
      const white = new Line();
      const black = new Line();
      let codeSum = 0;
      for (let y = 0; y < height; y++) {
        if (isWhite[y] < 0) continue;
        const i = y * width + x;
        if (isWhite[y] === 1) {
          white.add(y - middleY, light[c][i]);
          codeSum += codes[c][i];
        } else black.add(y - middleY, light[c][i]);
      }
      if (white.count < 2 || black.count < 2) continue;
      whites[c].push(white.level);
      blacks[c].push(black.level);
      contrasts[c].push(white.level - black.level);
      whiteSlopes[c].push(white.slope);
      contrastSlopes[c].push(white.slope - black.slope);
      whiteCodes[c].push(codeSum / white.count);
    }
    for (let y = 0; y < height; y++) {
      if (isWhite[y] !== 1) continue;
      const i = y * width + x;
      whitePixels++;
      if (Math.max(codes[0][i], codes[1][i], codes[2][i]) >= FULL_SCALE_CODE) clipped++;
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
    columnSpread: (1.4826 * median(deviations)) / Math.abs(green),
    oddColumns:
      deviations.filter((deviation) => deviation > ODD_SHARE * Math.abs(green)).length /
      deviations.length,
    whiteCode: medians(whiteCodes),
    clipped: clipped / whitePixels,
  };
}

function core(u: number): boolean {
  return u >= EDGE_SHARE && u <= 0.5 - EDGE_SHARE;
}

function medians(channels: readonly number[][]): Triple {
  return [median(channels[0]), median(channels[1]), median(channels[2])];
}

/** Straight line by least squares, read at t = 0. */
class Line {
  count = 0;
  private t = 0;
  private tt = 0;
  private v = 0;
  private tv = 0;

  add(t: number, value: number): void {
    this.count++;
    this.t += t;
    this.tt += t * t;
    this.v += value;
    this.tv += t * value;
  }

  get slope(): number {
    const spread = this.count * this.tt - this.t * this.t;
    return spread > 0 ? (this.count * this.tv - this.t * this.v) / spread : 0;
  }

  get level(): number {
    return (this.v - this.slope * this.t) / this.count;
  }
}
