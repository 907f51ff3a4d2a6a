import type { GreyImage } from "../../src/vision/features.ts";
import sharp from "sharp";
import { seededRandom, type Random } from "../../src/numeric/random.ts";
import type { SheetImage } from "../../src/register/sheetImage.ts";

/**
 * A printed cover as a continuous function of the place on the sheet, scanned through a known map: every pixel is computed
 * from the function, nothing is resampled, so the truth is exact.
 */

/** Four inks, each a screen of 85 lines per inch at its own angle; darkness of the solid in grey. */
const INKS = [
  { angleDegrees: 0, darkness: 0.12 },
  { angleDegrees: 75, darkness: 0.45 },
  { angleDegrees: 15, darkness: 0.55 },
  { angleDegrees: 45, darkness: 0.8 },
] as const;
const LINES_PER_MM = 85 / 25.4;
const PAPER_GREY = 222;
const BED_GREY = 243;
/** Over this width the paper's edge passes into the bed; a hard one would snap to the pixels. */
const EDGE_MM = 0.2;
/** Samples a mm of the tables that hold tones and line work. */
const TONES_PER_MM = 2;
const LINES_TABLE_PER_MM = 8;

export interface ArtOptions {
  readonly seed: number;
  readonly widthMm: number;
  readonly heightMm: number;
  /** Share of the sheet, from the top, that is printed; the rest stays blank paper. Default 1. */
  readonly printedShare?: number;
}

/** How a sheet looks on one day. */
export interface Condition {
  /** Loss of each ink's darkness, 0..1: yellow, red, blue, black. Default none. */
  readonly fade?: readonly [number, number, number, number];
  /** Another seed is another paper surface and ink mottle. */
  readonly grainSeed?: number;
  /** Added to the grey of the paper. */
  readonly whitening?: number;
}

/** Grey, 0..255, at a place of the sheet in mm. */
export type SheetFunction = (x: number, y: number) => number;

interface Table {
  readonly width: number;
  readonly height: number;
  readonly perMm: number;
  readonly values: Float32Array;
}

function table(widthMm: number, heightMm: number, perMm: number): Table {
  const width = Math.ceil(widthMm * perMm) + 2;
  const height = Math.ceil(heightMm * perMm) + 2;
  return { width, height, perMm, values: new Float32Array(width * height) };
}

/** Bilinear; held at the rim. */
function look({ width, height, perMm, values }: Table, x: number, y: number): number {
  const u = Math.max(0, Math.min(width - 1.001, x * perMm));
  const v = Math.max(0, Math.min(height - 1.001, y * perMm));
  const u0 = Math.floor(u);
  const v0 = Math.floor(v);
  const at = v0 * width + u0;
  const upper = values[at] + (u - u0) * (values[at + 1] - values[at]);
  const lower = values[at + width] + (u - u0) * (values[at + width + 1] - values[at + width]);
  return upper + (v - v0) * (lower - upper);
}

const NOISE_SIDE = 512;

/** A tile of white noise, standard normal, that repeats. */
function noiseTile(random: Random): Float32Array {
  return Float32Array.from({ length: NOISE_SIDE * NOISE_SIDE }, () => random.normal());
}

/** The tile as a continuous function, `perMm` samples a mm. */
function noiseAt(tile: Float32Array, perMm: number, x: number, y: number): number {
  const u = x * perMm;
  const v = y * perMm;
  const u0 = Math.floor(u);
  const v0 = Math.floor(v);
  const mask = NOISE_SIDE - 1;
  const c0 = u0 & mask;
  const c1 = (u0 + 1) & mask;
  const r0 = (v0 & mask) * NOISE_SIDE;
  const r1 = ((v0 + 1) & mask) * NOISE_SIDE;
  const upper = tile[r0 + c0] + (u - u0) * (tile[r0 + c1] - tile[r0 + c0]);
  const lower = tile[r1 + c0] + (u - u0) * (tile[r1 + c1] - tile[r1 + c0]);
  return upper + (v - v0) * (lower - upper);
}

interface Art {
  readonly tones: readonly Table[];
  readonly lines: Table;
}

/** Draws pictures, solids, tints and lettering into the tables. */
function drawArt({ seed, widthMm, heightMm, printedShare = 1 }: ArtOptions): Art {
  const random = seededRandom(seed);
  const tones = INKS.map(() => table(widthMm, heightMm, TONES_PER_MM));
  const lines = table(widthMm, heightMm, LINES_TABLE_PER_MM);
  const margin = 6;
  const bottom = heightMm * printedShare - margin;
  const tile = noiseTile(random);
  const fillTone = (
    ink: number,
    inside: (x: number, y: number) => boolean,
    tone: (x: number, y: number) => number,
  ): void => {
    const { width, height, perMm, values } = tones[ink];
    for (let row = 0; row < height; row++)
      for (let column = 0; column < width; column++) {
        const x = column / perMm;
        const y = row / perMm;
        if (x > margin && x < widthMm - margin && y > margin && y < bottom && inside(x, y))
          values[row * width + column] = Math.max(0, Math.min(1, tone(x, y)));
      }
  };
  const photograph = (x: number, y: number): number =>
    0.45 +
    0.22 * noiseAt(tile, 0.09, x, y) +
    0.12 * noiseAt(tile, 0.3, x + 70, y + 20) +
    0.08 * noiseAt(tile, 0.9, x + 11, y + 50);
  // One picture over much of the sheet, each ink its own tones.
  const [px, py] = [
    widthMm * (0.1 + 0.15 * random.uniform()),
    heightMm * (0.2 + 0.1 * random.uniform()),
  ];
  for (let ink = 0; ink < INKS.length; ink++)
    fillTone(
      ink,
      (x, y) => x > px && x < px + widthMm * 0.6 && y > py && y < py + heightMm * 0.45,
      (x, y) => photograph(x + 190 * ink, y) - (ink === 3 ? 0.25 : 0),
    );
  // Solids and flat tints: discs and bars.
  for (let i = 0; i < (widthMm * heightMm) / 700; i++) {
    const ink = random.below(3);
    const x0 = random.uniform() * widthMm;
    const y0 = random.uniform() * heightMm;
    const size = 4 + 12 * random.uniform();
    const round = random.uniform() < 0.5;
    const tone = random.uniform() < 0.5 ? 1 : 0.2 + 0.6 * random.uniform();
    const slant = random.uniform() - 0.5;
    fillTone(
      ink,
      (x, y) =>
        round
          ? Math.hypot(x - x0, y - y0) < size
          : Math.abs(x - x0 - slant * (y - y0)) < size && Math.abs(y - y0) < size / 3,
      () => tone,
    );
  }
  // Lettering: strokes on lines of type of several sizes.
  const stroke = (x0: number, y0: number, x1: number, y1: number, weight: number): void => {
    const { width, height, perMm, values } = lines;
    const length2 = (x1 - x0) ** 2 + (y1 - y0) ** 2;
    const reach = weight + 0.3;
    const c0 = Math.max(0, Math.floor((Math.min(x0, x1) - reach) * perMm));
    const c1 = Math.min(width - 1, Math.ceil((Math.max(x0, x1) + reach) * perMm));
    const r0 = Math.max(0, Math.floor((Math.min(y0, y1) - reach) * perMm));
    const r1 = Math.min(height - 1, Math.ceil((Math.max(y0, y1) + reach) * perMm));
    for (let row = r0; row <= r1; row++)
      for (let column = c0; column <= c1; column++) {
        const x = column / perMm;
        const y = row / perMm;
        const t = Math.max(0, Math.min(1, ((x - x0) * (x1 - x0) + (y - y0) * (y1 - y0)) / length2));
        const distance = Math.hypot(x - x0 - t * (x1 - x0), y - y0 - t * (y1 - y0));
        const ink = Math.max(0, Math.min(1, (weight / 2 - distance) / 0.12 + 0.5));
        const at = row * width + column;
        if (ink > values[at]) values[at] = ink;
      }
  };
  for (let y = margin + 2; y < bottom - 3;) {
    const type = [2, 2.5, 3, 6, 14][random.below(5)];
    const height = Math.min(type, bottom - 2 - y);
    const filled = random.uniform();
    if (filled < 0.6)
      for (let x = margin + 2 + random.uniform() * 20; x < widthMm - margin - height;) {
        if (random.uniform() < 0.85)
          for (let s = 0; s < 3; s++)
            stroke(
              x + random.below(2) * height * 0.5,
              y + random.below(3) * height * 0.5,
              x + random.below(2) * height * 0.5,
              y + random.below(3) * height * 0.5 + 0.01,
              height * 0.13,
            );
        x += height * 0.85;
        if (random.uniform() < 0.02) break;
      }
    y += height * (1.5 + random.uniform());
  }
  return { tones, lines };
}

/** The printed sheet as a function of the place, in mm from its top-left corner. */
export function printedSheet(options: ArtOptions): (condition: Condition) => SheetFunction {
  const { tones, lines } = drawArt(options);
  return ({ fade = [0, 0, 0, 0], grainSeed = 100, whitening = 0 }) => {
    const random = seededRandom(grainSeed);
    const fibre = noiseTile(random);
    const mottle = noiseTile(random);
    const screens = INKS.map(({ angleDegrees, darkness }, i) => {
      const turn = (angleDegrees * Math.PI) / 180;
      const k = 2 * Math.PI * LINES_PER_MM;
      return {
        cos: k * Math.cos(turn),
        sin: k * Math.sin(turn),
        strength: darkness * (1 - fade[i]),
      };
    });
    return (x, y) => {
      const rough =
        2 * noiseAt(fibre, 5, x, y) +
        1.6 * noiseAt(fibre, 1.7, y + 31, x) +
        1.2 * noiseAt(fibre, 0.4, x + 7, y);
      let share = 1;
      for (let i = 0; i < screens.length; i++) {
        const tone = look(tones[i], x, y);
        if (tone < 0.02) continue;
        const { cos, sin, strength } = screens[i];
        let dot = 1;
        if (tone < 0.98) {
          const cell = (Math.cos(cos * x + sin * y) + Math.cos(cos * y - sin * x)) / 4 + 0.5;
          dot = Math.max(0, Math.min(1, (tone + cell - 1) / 0.15 + 0.5));
        }
        share *= 1 - strength * dot * (1 + 0.05 * noiseAt(mottle, 3, x, y));
      }
      share *= 1 - 0.85 * (1 - fade[3]) * look(lines, x, y);
      return (PAPER_GREY + whitening + rough) * share;
    };
  };
}

/** How the sheet lies on the bed: turned, stretched, shifted and cockled. */
export interface Lie {
  /** Clockwise on screen. */
  readonly rotationDegrees?: number;
  /** The sheet is this much larger than before. */
  readonly scale?: number;
  readonly shiftMm?: readonly [number, number];
  /** Six waves whose peak adds up to this. */
  readonly cockleMm?: number;
  /** Range of their wavelengths. */
  readonly waveMm?: readonly [number, number];
  readonly cockleSeed?: number;
  readonly mirrored?: boolean;
}

/** mm of the frame to mm of the sheet, written to `out`. */
export type FrameToSheet = (x: number, y: number, out: Float64Array) => void;

export interface Bed {
  readonly widthMm: number;
  readonly heightMm: number;
}

/** The map from a frame to the sheet that lies in its middle. */
export function lieOf(lie: Lie, bed: Bed, sheet: Bed): FrameToSheet {
  const {
    rotationDegrees = 0,
    scale = 1,
    shiftMm = [0, 0],
    cockleMm = 0,
    waveMm = [80, 250],
  } = lie;
  const random = seededRandom(lie.cockleSeed ?? 5);
  const waves = Array.from({ length: 6 }, () => {
    const length = waveMm[0] + (waveMm[1] - waveMm[0]) * random.uniform();
    const direction = 2 * Math.PI * random.uniform();
    const along = 2 * Math.PI * random.uniform();
    return {
      kx: (2 * Math.PI * Math.cos(direction)) / length,
      ky: (2 * Math.PI * Math.sin(direction)) / length,
      phase: 2 * Math.PI * random.uniform(),
      ax: (cockleMm / 6) * Math.cos(along),
      ay: (cockleMm / 6) * Math.sin(along),
    };
  });
  const turn = (rotationDegrees * Math.PI) / 180;
  const cos = Math.cos(turn) / scale;
  const sin = Math.sin(turn) / scale;
  return (x, y, out) => {
    const u = x - bed.widthMm / 2 - shiftMm[0];
    const v = y - bed.heightMm / 2 - shiftMm[1];
    let sx = (lie.mirrored ? -1 : 1) * (cos * u + sin * v) + sheet.widthMm / 2;
    let sy = -sin * u + cos * v + sheet.heightMm / 2;
    const [wx, wy] = [sx, sy];
    for (const { kx, ky, phase, ax, ay } of waves) {
      const s = Math.sin(kx * wx + ky * wy + phase);
      sx += ax * s;
      sy += ay * s;
    }
    out[0] = sx;
    out[1] = sy;
  };
}

/** The frame place (mm) that shows a place of the sheet, by fixed-point iteration; to 1e-6 mm for the maps above. */
export function frameOfSheetPlace(
  toSheet: FrameToSheet,
  lie: Lie,
  x: number,
  y: number,
  start: readonly [number, number],
): [number, number] {
  const turn = ((lie.rotationDegrees ?? 0) * Math.PI) / 180;
  const scale = lie.scale ?? 1;
  let [u, v] = start;
  const at = new Float64Array(2);
  for (let i = 0; i < 200; i++) {
    toSheet(u, v, at);
    const ex = x - at[0];
    const ey = y - at[1];
    if (Math.hypot(ex, ey) < 1e-9) break;
    u += scale * (Math.cos(turn) * ex - Math.sin(turn) * ey);
    v += scale * (Math.sin(turn) * ex + Math.cos(turn) * ey);
  }
  return [u, v];
}

/** A block on the bed that is no part of the sheet: a card of patches. */
export interface BedCard {
  readonly leftMm: number;
  readonly topMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
}

export interface Scan {
  readonly bed: Bed;
  readonly sheet: Bed;
  readonly toSheet: FrameToSheet;
  readonly grey: SheetFunction;
  readonly dpi: number;
  /** Standard deviation of the scanner's noise, code values. */
  readonly noise: number;
  readonly noiseSeed: number;
  readonly card?: BedCard;
}

function cardGrey(card: BedCard, x: number, y: number): number | null {
  const u = (x - card.leftMm) / card.widthMm;
  const v = (y - card.topMm) / card.heightMm;
  if (u < 0 || v < 0 || u >= 1 || v >= 1) return null;
  const columns = Math.max(2, Math.round(card.widthMm / 8));
  const rows = Math.max(2, Math.round(card.heightMm / 8));
  const fu = (u * columns) % 1;
  const fv = (v * rows) % 1;
  if (fu < 0.1 || fu > 0.9 || fv < 0.1 || fv > 0.9) return 25;
  return 40 + ((Math.floor(u * columns) * 71 + Math.floor(v * rows) * 37) % 190);
}

/** Renders a frame. Below 300 dpi each pixel is the mean of 2 x 2 places, as a scanner's aperture would see it. */
export function renderScan(scan: Scan): GreyImage {
  const { bed, sheet, toSheet, grey, dpi, card } = scan;
  const pitch = 25.4 / dpi;
  const width = Math.round(bed.widthMm / pitch);
  const height = Math.round(bed.heightMm / pitch);
  const random = seededRandom(scan.noiseSeed);
  const noise = Float32Array.from({ length: 1 << 16 }, () => scan.noise * random.normal());
  const pixels = new Uint8Array(width * height);
  const places = dpi < 300 ? [-0.25, 0.25] : [0];
  const at = new Float64Array(2);
  for (let row = 0, i = 0; row < height; row++) {
    const offset = random.below(1 << 16);
    for (let column = 0; column < width; column++, i++) {
      let sum = 0;
      for (const oy of places)
        for (const ox of places) {
          const x = (column + 0.5 + ox) * pitch;
          const y = (row + 0.5 + oy) * pitch;
          const onCard = card === undefined ? null : cardGrey(card, x, y);
          if (onCard !== null) {
            sum += onCard;
            continue;
          }
          toSheet(x, y, at);
          const inside = Math.min(at[0], at[1], sheet.widthMm - at[0], sheet.heightMm - at[1]);
          const on = Math.max(0, Math.min(1, inside / EDGE_MM + 0.5));
          sum += (on > 0 ? on * grey(at[0], at[1]) : 0) + (1 - on) * BED_GREY;
        }
      const value = sum / places.length ** 2 + noise[(offset + column) & 0xffff];
      pixels[i] = Math.max(0, Math.min(255, Math.round(value)));
    }
  }
  return { pixels, width, height };
}

/** A rendered frame as registration takes it; resized by Lanczos. */
export function sheetImage(image: GreyImage, dpi: number): SheetImage {
  return {
    widthPixels: image.width,
    heightPixels: image.height,
    dpi,
    async grey(width, height) {
      if (width === image.width && height === image.height) return image;
      const pixels = await sharp(image.pixels, {
        raw: { width: image.width, height: image.height, channels: 1 },
      })
        .resize(width, height, { fit: "fill", kernel: "lanczos3" })
        .extractChannel(0)
        .raw()
        .toBuffer();
      return { pixels, width, height };
    },
  };
}

/** Through a JPEG file and back. */
export async function throughJpeg(image: GreyImage, quality: number): Promise<GreyImage> {
  const { width, height } = image;
  const file = await sharp(image.pixels, { raw: { width, height, channels: 1 } })
    .jpeg({ quality })
    .toBuffer();
  const pixels = await sharp(file).extractChannel(0).raw().toBuffer();
  return { pixels, width, height };
}
