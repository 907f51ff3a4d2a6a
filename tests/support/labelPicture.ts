import { labToXyzD50, xyzD50ToLab } from "../../src/colour/lab.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { seededRandom } from "../../src/numeric/random.ts";
import type { LabImage } from "../../src/grid/labImage.ts";

/** A flat shape of one ink, in mm of the sheet: a rectangle, or an ellipse in that box. */
export interface Patch {
  readonly ink: string;
  /** x, y, width, height in mm. */
  readonly box: readonly [number, number, number, number];
  readonly round?: boolean;
}

export interface LabelPictureOptions {
  readonly inks: Readonly<Record<string, Triple>>;
  readonly patches: readonly Patch[];
  readonly paper: Triple;
  /** Extra colour at a place of the sheet in mm, added to Lab: browning, soil. Default none. */
  readonly stain?: (x: number, y: number) => Triple;
  readonly bed: Triple;
  /** Size of the sheet in mm. Default 130 x 170. */
  readonly sheet?: readonly [number, number];
  /** Bed around the sheet in mm; negative cuts the sheet off. Default 12. */
  readonly border?: number;
  /** Turn of the sheet about its middle. Default 0. */
  readonly angleDegrees?: number;
  /** Depth of a shadow line beside the right and lower edge, in parts of the bed's light. Default 0. */
  readonly shadow?: number;
  /** Relative amplitude of the halftone ripple of the inks. Default 0.08. */
  readonly ripple?: number;
  /** Standard deviation of the noise of a cell, L*. Default 0.8. */
  readonly noise?: number;
  readonly seed?: number;
  /** Default 0.254 (100 cells per inch). */
  readonly mmPerCell?: number;
}

export interface LabelPicture {
  readonly image: LabImage;
  /** Per cell: 0 bed, 1.. the inks in the order of their record, 255 paper. */
  readonly truth: Uint8Array;
  /** Cell of a place of the sheet in mm. */
  readonly cellAt: (x: number, y: number) => number;
  /** Full pixel of a place of the sheet in mm. */
  readonly pixelAt: (x: number, y: number) => [number, number];
}

/** Full pixels per cell in these pictures, along both axes. */
export const STEP = 4;
const POOL_MASK = 0xffff;
/** Period of a screen of 65 lines per inch. */
const SCREEN_MM = 25.4 / 65;

/** Draws a print of flat inks on paper on a scanner bed, with ripple, blurred edges and noise, and knows each cell's label. */
export function labelPicture(options: LabelPictureOptions): LabelPicture {
  const {
    inks,
    patches,
    paper,
    bed,
    stain,
    sheet: [sheetWidth, sheetHeight] = [130, 170],
    border = 12,
    angleDegrees = 0,
    shadow = 0,
    ripple = 0.08,
    noise = 0.8,
    seed = 1,
    mmPerCell = 0.254,
  } = options;
  const names = Object.keys(inks);
  const width = Math.round((sheetWidth + 2 * border) / mmPerCell);
  const height = Math.round((sheetHeight + 2 * border) / mmPerCell);
  const c = Math.cos((angleDegrees * Math.PI) / 180);
  const s = Math.sin((angleDegrees * Math.PI) / 180);
  const toSheet = (x: number, y: number): [number, number] => {
    const u = (x + 0.5 - width / 2) * mmPerCell;
    const v = (y + 0.5 - height / 2) * mmPerCell;
    return [c * u + s * v + sheetWidth / 2, -s * u + c * v + sheetHeight / 2];
  };
  const toCell = (x: number, y: number): [number, number] => {
    const u = x - sheetWidth / 2;
    const v = y - sheetHeight / 2;
    return [
      (c * u - s * v) / mmPerCell + width / 2 - 0.5,
      (s * u + c * v) / mmPerCell + height / 2 - 0.5,
    ];
  };

  const truth = new Uint8Array(width * height);
  const planes = [0, 1, 2].map(() => new Float32Array(width * height));
  const solid = names.map((name) => labToXyzD50(inks[name]));
  const bedXyz = labToXyzD50(bed);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      const [u, v] = toSheet(x, y);
      let xyz: Triple = bedXyz;
      if (u >= 0 && v >= 0 && u < sheetWidth && v < sheetHeight) {
        const top = patches.findLast(({ box, round }) => inside(u, v, box, round === true));
        truth[i] = top === undefined ? 255 : names.indexOf(top.ink) + 1;
        const added = stain?.(u, v) ?? [0, 0, 0];
        const own = top === undefined ? labToXyzD50(paper) : solid[truth[i] - 1];
        const lab = stain === undefined ? null : xyzD50ToLab(own);
        xyz =
          lab === null
            ? own
            : labToXyzD50([lab[0] + added[0], lab[1] + added[1], lab[2] + added[2]]);
        if (top !== undefined) {
          const wave =
            Math.sin((2 * Math.PI * (u + v)) / SCREEN_MM / Math.SQRT2) *
            Math.sin((2 * Math.PI * (u - v)) / SCREEN_MM / Math.SQRT2);
          xyz = scaled(xyz, 1 + ripple * wave);
        }
      } else if (shadow > 0) {
        const beside = Math.max(u - sheetWidth, v - sheetHeight);
        if (beside >= 0 && beside < 0.8 && u > 0 && v > 0) xyz = scaled(bedXyz, 1 - shadow);
      }
      for (let k = 0; k < 3; k++) planes[k][i] = xyz[k];
    }

  // Drawn once and read from three places: as good as new draws for cells this far apart, and quick.
  const random = seededRandom(seed);
  const pool = Float32Array.from({ length: POOL_MASK + 1 }, () => random.normal());
  const [startL, startA, startB] = [0, 1, 2].map(() => random.below(POOL_MASK));
  const blurred = planes.map((plane) => blur(plane, width, height));
  const L = new Float32Array(width * height);
  const a = new Float32Array(width * height);
  const b = new Float32Array(width * height);
  for (let i = 0; i < L.length; i++) {
    const lab = xyzD50ToLab([blurred[0][i], blurred[1][i], blurred[2][i]]);
    L[i] = lab[0] + noise * pool[(i + startL) & POOL_MASK];
    a[i] = lab[1] + 0.6 * noise * pool[(i + startA) & POOL_MASK];
    b[i] = lab[2] + 0.6 * noise * pool[(i + startB) & POOL_MASK];
  }
  return {
    image: { width, height, L, a, b, mmPerCell, stepX: STEP, stepY: STEP },
    truth,
    cellAt: (x, y) => {
      const [u, v] = toCell(x, y);
      return Math.round(v) * width + Math.round(u);
    },
    pixelAt: (x, y) => {
      const [u, v] = toCell(x, y);
      return [(u + 0.5) * STEP - 0.5, (v + 0.5) * STEP - 0.5];
    },
  };
}

function inside(x: number, y: number, box: Patch["box"], round: boolean): boolean {
  const u = (x - box[0]) / box[2];
  const v = (y - box[1]) / box[3];
  return round ? (2 * u - 1) ** 2 + (2 * v - 1) ** 2 < 1 : u >= 0 && u < 1 && v >= 0 && v < 1;
}

function scaled(xyz: Triple, factor: number): Triple {
  return [xyz[0] * factor, xyz[1] * factor, xyz[2] * factor];
}

/** The scanner's own blur: one 3 x 3 binomial in linear light. */
function blur(plane: Float32Array, width: number, height: number): Float32Array {
  const rows = new Float32Array(plane.length);
  const out = new Float32Array(plane.length);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      const left = x > 0 ? i - 1 : i;
      const right = x < width - 1 ? i + 1 : i;
      rows[i] = 0.25 * plane[left] + 0.5 * plane[i] + 0.25 * plane[right];
    }
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      const up = y > 0 ? i - width : i;
      const down = y < height - 1 ? i + width : i;
      out[i] = 0.25 * rows[up] + 0.5 * rows[i] + 0.25 * rows[down];
    }
  return out;
}
