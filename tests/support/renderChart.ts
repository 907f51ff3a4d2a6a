import type { Point } from "../../src/numeric/point.ts";
import sharp from "sharp";
import type { Card } from "../../src/card/card.ts";
import type { Corners } from "../../src/card/parseCorners.ts";
import { labToXyzD50 } from "../../src/colour/lab.ts";
import { encodeSrgb, SRGB_TO_XYZ_D50 } from "../../src/colour/srgb.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import type { Matrix3 } from "../../src/numeric/matrix3.ts";
import { invert3, multiply3Vector } from "../../src/numeric/matrix3.ts";
import type { Random } from "../../src/numeric/random.ts";
import { seededRandom } from "../../src/numeric/random.ts";
import type { Raster } from "../../src/raster/raster.ts";

const XYZ_TO_RGB = invert3(SRGB_TO_XYZ_D50);

/** Linear sRGB of a CIELAB D50 colour, unclipped: what an ideal camera would hold. */
export function linearOfLab(lab: Triple): Triple {
  return multiply3Vector(XYZ_TO_RGB, labToXyzD50(lab));
}

export interface ChartScene {
  readonly card: Card;
  readonly width: number;
  readonly height: number;
  /** Pixels between neighbouring patches at the middle of the card. */
  readonly pitch: number;
  /** Middle of the card. Default: middle of the frame. */
  readonly centre?: Point;
  /** Clockwise on screen. Default 0. */
  readonly turnDegrees?: number;
  /** Perspective: share by which the scale changes from the card's middle over one card length, along x and along y. Default 0. */
  readonly tilt?: Point;
  /** Side of a patch as a share of the pitch. Default 0.86. */
  readonly patchShare?: number;
  /** What lies between and around the patches. Default black, as on most charts. */
  readonly ground?: "black" | "white";
  readonly background?: "plain" | "busy";
  /** A second panel of other coloured squares beside the card, same pitch. */
  readonly decoy?: boolean;
  /** Share of the card's length hidden by a cloth from the left end. Default 0. */
  readonly covered?: number;
  /** The card's surface is painted over in one colour (the rest of the scene stays). */
  readonly paintedOut?: boolean;
  readonly mirrored?: boolean;
  /** Gains of the linear channels: colour cast and exposure together. Default 1 1 1. */
  readonly gains?: Triple;
  /** Light falls from 1 + f at the left edge to 1 - f at the right. Default 0. */
  readonly lightFall?: number;
  /** Light left in a shadow whose slanted edge crosses the middle of the frame. Default 1: no shadow. */
  readonly shadow?: number;
  /** Linear (after gains) to code 0..1. Default: the sRGB curve. */
  readonly tone?: (linear: number) => number;
  /** Standard deviation of a Gaussian blur in pixels. Default 0.7. */
  readonly blur?: number;
  /** Standard deviation of the noise in 8-bit code steps. Default 2. */
  readonly noise?: number;
  /** JPEG round trip at this quality (8 bit only). Default: none. */
  readonly jpegQuality?: number;
  readonly bitDepth?: 8 | 16;
  readonly seed?: number;
}

export interface RenderedChart {
  readonly raster: Raster;
  /** True patch centres, row-major. Mirrored scenes: where each patch went. */
  readonly centres: readonly Point[];
  readonly corners: Corners;
}

/** A phone-like tone curve: the sRGB curve bent into an S. */
export function phoneTone(linear: number): number {
  const code = encodeSrgb(Math.max(0, Math.min(1, linear)));
  return code + 0.09 * Math.sin(2 * Math.PI * (code - 0.5)) * code;
}

const COVER: Triple = [0.21, 0.19, 0.2];
const PAINT: Triple = [0.35, 0.33, 0.3];
const GROUNDS: Record<"black" | "white", Triple> = {
  black: [0.018, 0.018, 0.019],
  white: [0.82, 0.82, 0.81],
};

/**
 * Draws a card into a scene, with the faults of real photos, and tells where its patches are.
 * Seeded: the same scene gives the same bytes.
 */
export async function renderChart(scene: ChartScene): Promise<RenderedChart> {
  const { card, width, height } = scene;
  const random = seededRandom(scene.seed ?? 1);
  const toPixels = cardToPixels(scene);
  const light = new Float32Array(width * height * 3);
  paintBackground(light, scene, random);
  paintCard(light, scene, invert3(toPixels), random);
  blurInPlace(light, width, height, scene.blur ?? 0.7);
  const raster = expose(light, scene, random);
  const place = (column: number, row: number): Point => {
    const [x, y, w] = multiply3Vector(toPixels, [column, row, 1]);
    return [scene.mirrored ? width - 1 - x / w : x / w, y / w];
  };
  const right = card.columns - 1;
  const bottom = card.rows - 1;
  return {
    raster:
      scene.jpegQuality === undefined ? raster : await jpegRoundTrip(raster, scene.jpegQuality),
    centres: card.patches.map((_, i) => place(i % card.columns, Math.floor(i / card.columns))),
    corners: [place(0, 0), place(right, 0), place(right, bottom), place(0, bottom)],
  };
}

/** (column, row) to pixels: shift to the card's middle, turn and scale, divide by the perspective. */
function cardToPixels({
  card,
  width,
  height,
  pitch,
  centre,
  turnDegrees = 0,
  tilt = [0, 0],
}: ChartScene): Matrix3 {
  const [cx, cy] = centre ?? [(width - 1) / 2, (height - 1) / 2];
  const c = pitch * Math.cos((turnDegrees * Math.PI) / 180);
  const s = pitch * Math.sin((turnDegrees * Math.PI) / 180);
  const mx = (card.columns - 1) / 2;
  const my = (card.rows - 1) / 2;
  const gx = tilt[0] / card.columns;
  const gy = tilt[1] / card.columns;
  const w0 = 1 - gx * mx - gy * my;
  const x0 = -c * mx + s * my;
  const y0 = -s * mx - c * my;
  // prettier-ignore
  return [
    c + cx * gx, -s + cx * gy, x0 + cx * w0,
    s + cy * gx, c + cy * gy, y0 + cy * w0,
    gx, gy, w0,
  ];
}

function fillQuad(
  light: Float32Array,
  { width, height }: ChartScene,
  middle: Point,
  [sideX, sideY]: Point,
  turn: number,
  colour: Triple,
): void {
  const cos = Math.cos(turn);
  const sin = Math.sin(turn);
  const reach = Math.hypot(sideX, sideY) / 2;
  for (
    let y = Math.max(0, Math.floor(middle[1] - reach));
    y <= Math.min(height - 1, middle[1] + reach);
    y++
  )
    for (
      let x = Math.max(0, Math.floor(middle[0] - reach));
      x <= Math.min(width - 1, middle[0] + reach);
      x++
    ) {
      const dx = x - middle[0];
      const dy = y - middle[1];
      if (Math.abs(dx * cos + dy * sin) > sideX / 2 || Math.abs(dy * cos - dx * sin) > sideY / 2)
        continue;
      light.set(colour, 3 * (y * width + x));
    }
}

/** Plain: mid grey. Busy: grain, sheets of paper and coloured things at all angles, and a keyboard (a lattice of its own). */
function paintBackground(light: Float32Array, scene: ChartScene, random: Random): void {
  const { width, height } = scene;
  const busy = scene.background === "busy";
  for (let i = 0; i < width * height; i++) {
    const grain = busy
      ? 0.16 * (1 + 0.5 * Math.sin(((i % width) + 7 * Math.sin(i / width / 40)) / 9))
      : 0.2;
    light[3 * i] = grain * 1.2;
    light[3 * i + 1] = grain;
    light[3 * i + 2] = grain * 0.8;
  }
  if (!busy) return;
  const size = Math.min(width, height);
  for (let n = 0; n < 60; n++) {
    const side = size * (0.015 + 0.2 * random.uniform() ** 2);
    const shade: Triple = [random.uniform(), random.uniform(), random.uniform()];
    fillQuad(
      light,
      scene,
      [width * random.uniform(), height * random.uniform()],
      [side, side * (0.5 + random.uniform())],
      Math.PI * random.uniform(),
      shade,
    );
  }
  const turn = Math.PI * random.uniform();
  const [kx, ky] = [
    width * (0.2 + 0.6 * random.uniform()),
    height * (0.2 + 0.6 * random.uniform()),
  ];
  const key = size / 28;
  fillQuad(light, scene, [kx, ky], [13 * key, 6 * key], turn, [0.02, 0.02, 0.02]);
  for (let row = -2; row <= 2; row++)
    for (let column = -6; column <= 5; column++) {
      const u = (column + 0.5) * key;
      const v = row * key;
      const shade = 0.05 + 0.03 * random.uniform();
      fillQuad(
        light,
        scene,
        [
          kx + u * Math.cos(turn) - v * Math.sin(turn),
          ky + u * Math.sin(turn) + v * Math.cos(turn),
        ],
        [0.82 * key, 0.82 * key],
        turn,
        [shade, shade, shade],
      );
    }
}

const SUBSAMPLES = [-0.375, -0.125, 0.125, 0.375];

/** The card, a margin of half a pitch about it, its decoy and its cloth; edges averaged over 4 x 4 points of a pixel. */
function paintCard(light: Float32Array, scene: ChartScene, toCard: Matrix3, random: Random): void {
  const { card, width, height, patchShare = 0.86, ground = "black", covered = 0 } = scene;
  const colours = card.patches.map(({ lab }) => linearOfLab(lab));
  const decoys = card.patches.map((): Triple => [
    random.uniform(),
    random.uniform(),
    random.uniform(),
  ]);
  const colourAt = (u: number, v: number): Triple | null => {
    if (v < -0.85 || v > card.rows - 0.15) return null;
    const onCard = u >= -0.85 && u <= card.columns - 0.15;
    const decoyColumn = u - card.columns - 0.9;
    const onDecoy =
      scene.decoy === true && decoyColumn >= -0.85 && decoyColumn <= card.columns - 0.15;
    if (!onCard && !onDecoy) return null;
    if (onCard && covered > 0 && u < -0.5 + covered * card.columns) return COVER;
    if (onCard && scene.paintedOut) return PAINT;
    const column = onCard ? u : decoyColumn;
    const c = Math.round(column);
    const r = Math.round(v);
    const inside =
      c >= 0 && c < card.columns && r >= 0 && r < card.rows &&
      Math.abs(column - c) < patchShare / 2 && Math.abs(v - r) < patchShare / 2; // prettier-ignore
    if (!inside) return GROUNDS[ground];
    return (onCard ? colours : decoys)[r * card.columns + c];
  };
  const [A, B, C, D, E, F, G, H, K] = toCard;
  const at = (x: number, y: number): Triple | null => {
    const w = G * x + H * y + K;
    return w > 0 ? colourAt((A * x + B * y + C) / w, (D * x + E * y + F) / w) : null;
  };
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const i = 3 * (y * width + x);
      // Pixels whose four corners and middle agree need no averaging.
      const middle = at(x, y);
      if (
        at(x - 0.5, y - 0.5) === middle &&
        at(x + 0.5, y - 0.5) === middle &&
        at(x - 0.5, y + 0.5) === middle &&
        at(x + 0.5, y + 0.5) === middle
      ) {
        if (middle !== null) light.set(middle, i);
        continue;
      }
      const under: Triple = [light[i], light[i + 1], light[i + 2]];
      const sum = [0, 0, 0];
      for (const dy of SUBSAMPLES)
        for (const dx of SUBSAMPLES) {
          const colour = at(x + dx, y + dy) ?? under;
          for (let c = 0; c < 3; c++) sum[c] += colour[c] / 16;
        }
      light.set(sum, i);
    }
}

function blurInPlace(light: Float32Array, width: number, height: number, sigma: number): void {
  if (sigma <= 0) return;
  const reach = Math.ceil(3 * sigma);
  const kernel = Array.from({ length: 2 * reach + 1 }, (_, i) =>
    Math.exp(-((i - reach) ** 2) / (2 * sigma * sigma)),
  );
  const total = kernel.reduce((sum, value) => sum + value, 0);
  const pass = (lines: number, length: number, lineStride: number, stride: number): void => {
    const line = new Float64Array(length);
    for (let l = 0; l < lines; l++)
      for (let c = 0; c < 3; c++) {
        const start = 3 * l * lineStride + c;
        for (let i = 0; i < length; i++) line[i] = light[start + 3 * i * stride];
        for (let i = 0; i < length; i++) {
          let sum = 0;
          for (let k = -reach; k <= reach; k++)
            sum += kernel[k + reach] * line[Math.min(length - 1, Math.max(0, i + k))];
          light[start + 3 * i * stride] = sum / total;
        }
      }
  };
  pass(height, width, width, 1);
  pass(width, height, 1, width);
}

/** Light, cast, tone curve, noise, rounding; mirrored last, as a scanner driver would. */
function expose(light: Float32Array, scene: ChartScene, random: Random): Raster {
  const {
    width,
    height,
    gains = [1, 1, 1],
    lightFall = 0,
    shadow = 1,
    noise = 2,
    bitDepth = 8,
  } = scene;
  const tone = scene.tone ?? encodeSrgb;
  // Curve and noise from tables: a scene holds millions of values.
  const steps = bitDepth === 8 ? 2 ** 16 : 2 ** 20;
  const toned = Float64Array.from({ length: steps + 1 }, (_, i) => tone(i / steps));
  const grain = Float64Array.from({ length: 65_537 }, () => (noise / 255) * random.normal());
  let next = 0;
  const full = 2 ** bitDepth - 1;
  const data = bitDepth === 8 ? new Uint8Array(light.length) : new Uint16Array(light.length);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const shade = x + 0.6 * y < 0.5 * width + 0.3 * height ? shadow : 1;
      const fall = shade * (1 + lightFall * (1 - (2 * x) / width));
      const to = scene.mirrored ? width - 1 - x : x;
      for (let c = 0; c < 3; c++) {
        const linear = Math.min(1, Math.max(0, light[3 * (y * width + x) + c] * gains[c] * fall));
        const code = toned[Math.round(steps * linear)] + grain[next++ % grain.length];
        data[3 * (y * width + to) + c] = Math.min(full, Math.max(0, Math.round(code * full)));
      }
    }
  return { width, height, bitDepth, data };
}

async function jpegRoundTrip({ data, width, height }: Raster, quality: number): Promise<Raster> {
  const jpeg = await sharp(data, { raw: { width, height, channels: 3 } })
    .jpeg({ quality })
    .toBuffer();
  return { width, height, bitDepth: 8, data: new Uint8Array(await sharp(jpeg).raw().toBuffer()) };
}
