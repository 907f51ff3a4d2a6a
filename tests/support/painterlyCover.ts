import type { LabImage } from "../../src/grid/labImage.ts";
import { seededRandom, type Random } from "../../src/numeric/random.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { labOfSoftBands, softBands } from "../../src/print/softBands.ts";

/** Transmission of the solids in three broad bands over their paper: yellow, red, blue, black. Usual figures of letterpress and offset covers. */
const SOLIDS: readonly Triple[] = [
  [0.93, 0.77, 0.37],
  [0.55, 0.22, 0.18],
  [0.155, 0.35, 0.64],
  [0.075, 0.075, 0.08],
];
const ANGLES = [0, 75, 15, 45];
const LINES_PER_MM = 100 / 25.4;
/** Optical dot gain after Yule and Nielsen. */
const N = 1.4;

export interface PainterlyOptions {
  readonly seed: number;
  readonly paper: Triple;
  /** Bare paper round the art. 0: the art runs off the sheet. */
  readonly marginMm: number;
  /** Least coverage of yellow and of red in the art: above 0 no place within it is bare. Default 0. */
  readonly leastTint?: readonly [yellow: number, red: number];
  /** A bare patch in the art, as a share of the sheet. Default 0. */
  readonly bareShare?: number;
  /** Trimmed edge: this much at the rim is bare. Default 0. */
  readonly rimMm?: number;
}

export interface PainterlyCover {
  readonly image: LabImage;
  /** Share of the sheet without any ink. */
  readonly bareShare: number;
  /** Middle of the bare patch in full pixels. */
  readonly patchPixels: readonly [number, number];
}

const SHEET_MM = [80, 110] as const;
const BORDER_MM = 8;
const CELL_MM = 0.2;
const STEP = 2;
const SUB = 3;

/** Smooth noise of mean 0 and about unit scatter: independent values so far apart, cubic between. */
function field(random: Random, periodMm: number): (x: number, y: number) => number {
  const side = 64;
  const knots = Float64Array.from({ length: side * side }, () => random.normal());
  return (x, y) => {
    const [u, v] = [x / periodMm + 7, y / periodMm + 7];
    const [u0, v0] = [Math.floor(u), Math.floor(v)];
    const ease = (t: number): number => t * t * (3 - 2 * t);
    const [fu, fv] = [ease(u - u0), ease(v - v0)];
    const at = (i: number, j: number): number => knots[(j & 63) * side + (i & 63)];
    return (
      1.3 *
      ((1 - fv) * ((1 - fu) * at(u0, v0) + fu * at(u0 + 1, v0)) +
        fv * ((1 - fu) * at(u0, v0 + 1) + fu * at(u0 + 1, v0 + 1)))
    );
  };
}

/**
 * A painted cover: four plates of continuous tone, each a screen of round dots at its own angle, on paper with grain and a toned rim, on a grey bed. Every
 * cell is the mean light of nine points.
 */
export function painterlyCover(options: PainterlyOptions): PainterlyCover {
  const { seed, paper, marginMm, leastTint = [0, 0], bareShare = 0, rimMm = 0 } = options;
  const random = seededRandom(seed);
  const [W, H] = SHEET_MM;
  const width = Math.round((W + 2 * BORDER_MM) / CELL_MM);
  const height = Math.round((H + 2 * BORDER_MM) / CELL_MM);
  // The art: large forms, smaller ones, brushwork.
  const plates = SOLIDS.map(
    () => [field(random, 38), field(random, 13), field(random, 3.5)] as const,
  );
  const depth = [0.45, 0.35, 0.3, 0.12];
  const tone = (k: number, x: number, y: number): number => {
    const [large, middle, fine] = plates[k];
    const t = depth[k] + 0.3 * large(x, y) + 0.14 * middle(x, y) + 0.06 * fine(x, y);
    return Math.max(k < 2 ? leastTint[k] : 0, Math.min(1, t));
  };
  const patchSide = Math.sqrt(bareShare * W * H);
  const [px, py] = [W * (0.2 + 0.5 * random.uniform()), H * (0.2 + 0.5 * random.uniform())];
  const printed = (x: number, y: number): boolean => {
    const clear = Math.min(x, y, W - x, H - y);
    if (clear < Math.max(marginMm, rimMm)) return false;
    return !(Math.abs(x - px) < patchSide / 2 && Math.abs(y - py) < patchSide / 2);
  };
  const white = softBands(paper);
  const bed = softBands([62, 0, 0]);
  const solids = SOLIDS.map((ink) => ink.map((T) => T ** (1 / N)));
  const toning = 0.03 * random.uniform();
  const grain = field(random, 1.1);
  const turns = ANGLES.map((degrees) => {
    const angle = (degrees * Math.PI) / 180;
    return [
      Math.cos(angle) * 2 * Math.PI * LINES_PER_MM,
      Math.sin(angle) * 2 * Math.PI * LINES_PER_MM,
    ];
  });
  const dot = (k: number, x: number, y: number, c: number): number => {
    if (c <= 0 || c >= 1) return c;
    const [p, q] = turns[k];
    const wave = (Math.cos(p * x + q * y) + Math.cos(q * x - p * y)) / 4 + 0.5;
    // A soft-edged dot whose mean is about its coverage.
    return 1 / (1 + Math.exp(-(wave - threshold(c)) / 0.05));
  };
  const L = new Float32Array(width * height);
  const a = new Float32Array(width * height);
  const b = new Float32Array(width * height);
  let bare = 0;
  let sheet = 0;
  const light = [0, 0, 0];
  const sums = new Float64Array(3);
  for (let row = 0; row < height; row++)
    for (let column = 0; column < width; column++) {
      const i = row * width + column;
      const [x, y] = [(column + 0.5) * CELL_MM - BORDER_MM, (row + 0.5) * CELL_MM - BORDER_MM];
      light.fill(0);
      if (x < 0 || y < 0 || x > W || y > H) for (let c = 0; c < 3; c++) light[c] = bed[c];
      else {
        sheet++;
        const clear = Math.min(x, y, W - x, H - y);
        const ground = 1 + 0.012 * grain(x, y) - toning * Math.exp(-clear / 4);
        const brown = toning * Math.exp(-clear / 4);
        if (!printed(x, y)) {
          bare++;
          for (let c = 0; c < 3; c++) light[c] = white[c] * (ground - (c === 2 ? brown : 0));
        } else {
          const tones = SOLIDS.map((_, k) => tone(k, x, y));
          for (let s = 0; s < SUB * SUB; s++) {
            const u = x + (((s % SUB) + 0.5) / SUB - 0.5) * CELL_MM;
            const v = y + ((Math.floor(s / SUB) + 0.5) / SUB - 0.5) * CELL_MM;
            // Overprints transmit as the product of their inks, so Demichel's sum over all of them is a product as well.
            sums.fill(1);
            for (let k = 0; k < 4; k++) {
              const cover = dot(k, u, v, tones[k]);
              for (let c = 0; c < 3; c++) sums[c] *= 1 - cover * (1 - solids[k][c]);
            }
            for (let c = 0; c < 3; c++)
              light[c] += (white[c] * (ground - (c === 2 ? brown : 0)) * sums[c] ** N) / SUB ** 2;
          }
        }
      }
      const lab = labOfSoftBands([light[0], light[1], light[2]]);
      L[i] = lab[0] + 0.5 * random.normal();
      a[i] = lab[1] + 0.3 * random.normal();
      b[i] = lab[2] + 0.3 * random.normal();
    }
  return {
    image: { width, height, L, a, b, mmPerCell: CELL_MM, stepX: STEP, stepY: STEP },
    bareShare: bare / sheet,
    patchPixels: [
      ((px + BORDER_MM) / CELL_MM) * STEP - 0.5,
      ((py + BORDER_MM) / CELL_MM) * STEP - 0.5,
    ],
  };
}

/** Level above which the wave of a screen lies over the share c of the sheet; from a table of the wave's own distribution. */
const LEVELS = (() => {
  const values: number[] = [];
  for (let i = 0; i < 64; i++)
    for (let j = 0; j < 64; j++)
      values.push(
        (Math.cos((2 * Math.PI * (i + 0.5)) / 64) + Math.cos((2 * Math.PI * (j + 0.5)) / 64)) / 4 +
          0.5,
      );
  return values.sort((p, q) => q - p);
})();

function threshold(c: number): number {
  return LEVELS[Math.min(LEVELS.length - 1, Math.floor(c * LEVELS.length))];
}
