import type { Point } from "../../src/card/card.ts";
import type { Raster } from "../../src/raster/raster.ts";
import { cardCorners, cardSize } from "./cardFace.ts";
import type { CardPlacement } from "./cardFace.ts";
import { COVER_HEIGHT_MM, COVER_WIDTH_MM, REGIONS, drawCover } from "./cover.ts";
import type { RegionId } from "./cover.ts";
import { sheetOutline } from "./outline.ts";
import { flatBlocks } from "./flatBlocks.ts";
import { framePixels } from "./frame.ts";
import type { FrameScene } from "./paintFrame.ts";
import type { LaidSheet } from "./paintSheet.ts";
import { paperConditions } from "./paperConditions.ts";
import type { Bleed, TideLine } from "./paperConditions.ts";
import { sheetMap } from "./placement.ts";
import type { Placement } from "./placement.ts";
import { LATTICE_MM, PAPER_LABEL, blankPlates } from "./plates.ts";
import type { Ink, Plates } from "./plates.ts";
import { renderFrame } from "./renderFrame.ts";
import type { Scanner } from "./scanner.ts";
import { UNWASHED, sheetPrimaries } from "./sheetSpectra.ts";
import type { Washing } from "./sheetSpectra.ts";
import { regionCores, truthTallies } from "./truth.ts";
import type { AreaTruth } from "./truth.ts";
import { paperTexture } from "./texture.ts";

/** Everything about a pair of scans; see {@link PAIR_DEFAULTS} for what is left out. */
export interface PairOptions {
  /** Which issue is printed; 1 is the one of the samples. */
  readonly coverSeed: number;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly dpiBefore: number;
  readonly dpiAfter: number;

  readonly yellowingRemoved: number;
  readonly soilRemoved: number;
  /** Share of each ink that went. */
  readonly inkLoss: Readonly<Record<Ink, number>>;
  readonly dullBlack: number;
  readonly tideLine: TideLine | null;
  readonly bleed: Bleed | null;
  readonly unevenCleaning: number;

  /** Turn of each sheet on the scanner, clockwise. */
  readonly rotationBeforeDegrees: number;
  readonly rotationAfterDegrees: number;
  /** After over before. */
  readonly scaleX: number;
  readonly scaleY: number;
  /** Shift of the after sheet from the middle of its place in the frame. */
  readonly shiftMm: Point;
  readonly cockleMm: number;
  readonly shortestWaveMm: number;

  /** What lies on the scanner the second time. */
  readonly afterShows: "same" | "mirrored" | "other" | "blank";
  /** The after sheet has another fibre and mottle than the before sheet. */
  readonly regrain: boolean;
  /** Toned edges, soil, foxing. */
  readonly worn: boolean;
  readonly grain: number;
  readonly mottle: number;

  /** Pitch of the card's patches; null leaves the card out. */
  readonly cardPitchMm: number | null;
  readonly cardAngleBeforeDegrees: number;
  readonly cardAngleAfterDegrees: number;

  /** Reflectance of the backing. */
  readonly bed: number;
  readonly drift: number;
  readonly black: number;
  readonly unevenness: number;
  readonly noise: number;
  readonly blur: number;
  readonly bitDepth: 8 | 16;
  /** Of scanner drift and noise, the paper's wear and the cockle. */
  readonly seed: number;
}

/** White card behind the sheet. */
export const BED_LIGHT = 0.6;
/** Open lid in a dim room. */
export const BED_DARK = 0.04;

/** A cover that washed well, but for its red. */
export const PAIR_DEFAULTS: PairOptions = {
  coverSeed: 1,
  widthMm: COVER_WIDTH_MM,
  heightMm: COVER_HEIGHT_MM,
  dpiBefore: 150,
  dpiAfter: 150,
  yellowingRemoved: 0.36,
  soilRemoved: 0.4,
  inkLoss: { yellow: 0.01, red: 0.12, blue: 0.03, black: 0 },
  dullBlack: 0,
  tideLine: null,
  bleed: null,
  unevenCleaning: 0,
  rotationBeforeDegrees: 0.4,
  rotationAfterDegrees: -1.7,
  scaleX: 1.004,
  scaleY: 1.007,
  shiftMm: [3, -2],
  cockleMm: 1.2,
  shortestWaveMm: 80,
  afterShows: "same",
  regrain: false,
  worn: true,
  grain: 0.03,
  mottle: 0.08,
  cardPitchMm: 14,
  cardAngleBeforeDegrees: 0.5,
  cardAngleAfterDegrees: -0.8,
  bed: BED_LIGHT,
  drift: 0.02,
  black: 0.001,
  unevenness: 0.006,
  noise: 1.2,
  blur: 0.08,
  bitDepth: 8,
  seed: 1,
};

export interface RegionTruth extends AreaTruth {
  readonly id: RegionId;
  /** Its value in the label image. */
  readonly label: number;
}

/** A small picture of region labels in the orientation of the before scan: 0 nothing, 255 unprinted paper. */
export interface LabelImage {
  readonly width: number;
  readonly height: number;
  readonly dpi: number;
  readonly data: Uint8Array;
}

/** Pixel coordinates here follow the product: (0, 0) is the centre of the top-left pixel. */
export interface PairTruth {
  /** Where a place of the before scan lies in the after scan. Exact; meaningless for another or a blank cover. */
  readonly mapBeforeToAfterPixels: (x: number, y: number) => Point;
  readonly mapAfterToBeforePixels: (x: number, y: number) => Point;
  /** Is the place on the sheet of the before scan, at least `insetMm` from its edge? */
  readonly onSheet: (x: number, y: number, insetMm?: number) => boolean;
  /** Truth of each printed region over its core, 1 mm inside its outline. Only regions the cover has. */
  readonly inks: readonly RegionTruth[];
  /** Truth of the unprinted margins. */
  readonly paper: AreaTruth;
  /** Label at a place of the before scan; 0 beside the sheet and where no single colour is printed. */
  readonly labelAt: (x: number, y: number) => number;
  readonly labels: LabelImage;
  /** Truth over any part of the before scan, such as a region that a program found. Places beside the sheet are left out. */
  readonly over: (inside: (x: number, y: number) => boolean, stepMm?: number) => AreaTruth;
  readonly sheetCornersBefore: readonly [Point, Point, Point, Point];
  readonly sheetCornersAfter: readonly [Point, Point, Point, Point];
  /** Centres of the corner patches; null without a card. */
  readonly cardCornersBefore: readonly [Point, Point, Point, Point] | null;
  readonly cardCornersAfter: readonly [Point, Point, Point, Point] | null;
}

export interface PairScenes {
  readonly before: FrameScene;
  readonly after: FrameScene;
  readonly scannerBefore: Scanner;
  readonly scannerAfter: Scanner;
  readonly truth: PairTruth;
}

export interface RenderedPair {
  readonly before: Raster;
  readonly after: Raster;
  readonly dpiBefore: number;
  readonly dpiAfter: number;
  readonly truth: PairTruth;
}

/** Bare bed around the sheet and the card. */
const GAP_MM = 8;

interface Laid {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly middle: Point;
  readonly card: CardPlacement | null;
}

/** Sheet above, card below it, to the left or right of the middle. */
function layOut(
  options: PairOptions,
  rotationDegrees: number,
  scale: number,
  shiftMm: Point,
  cardAngle: number,
  cardSide: -1 | 1,
): Laid {
  const angle = (rotationDegrees * Math.PI) / 180;
  const c = Math.abs(Math.cos(angle)) * scale;
  const s = Math.abs(Math.sin(angle)) * scale;
  const play = options.cockleMm + Math.max(Math.abs(shiftMm[0]), Math.abs(shiftMm[1])) + GAP_MM;
  const halfWidth = (c * options.widthMm + s * options.heightMm) / 2 + play;
  const halfHeight = (s * options.widthMm + c * options.heightMm) / 2 + play;
  const middle: Point = [halfWidth + shiftMm[0], halfHeight + shiftMm[1]];
  const pitchMm = options.cardPitchMm;
  if (pitchMm === null)
    return { widthMm: 2 * halfWidth, heightMm: 2 * halfHeight, middle, card: null };
  const [cardWidth, cardHeight] = cardSize(pitchMm);
  const slack = Math.max(0, halfWidth - cardWidth / 2 - GAP_MM);
  return {
    widthMm: Math.max(2 * halfWidth, cardWidth + 2 * GAP_MM),
    heightMm: 2 * halfHeight + cardHeight + GAP_MM,
    middle,
    card: {
      middle: [
        Math.max(halfWidth, cardWidth / 2 + GAP_MM) + 0.6 * cardSide * slack,
        2 * halfHeight + cardHeight / 2,
      ],
      angleDegrees: cardAngle,
      pitchMm,
    },
  };
}

const coverCache = new Map<string, Plates>();

/** Drawing takes seconds; the last few covers are kept. Plates are never written to after drawing. */
function coverOf(seed: number, widthMm: number, heightMm: number): Plates {
  const key = `${seed} ${widthMm} ${heightMm}`;
  let plates = coverCache.get(key);
  if (plates === undefined) {
    plates = drawCover(seed, widthMm, heightMm);
    if (coverCache.size >= 3) coverCache.clear();
    coverCache.set(key, plates);
  }
  return plates;
}

function corners(
  width: number,
  height: number,
  at: (x: number, y: number) => Point,
): [Point, Point, Point, Point] {
  return [at(0, 0), at(width, 0), at(width, height), at(0, height)];
}

/** The scenes of a pair and their truth, not yet scanned. */
export function pairScenes(given: Partial<PairOptions> = {}): PairScenes {
  const options: PairOptions = { ...PAIR_DEFAULTS, ...given };
  const { widthMm, heightMm, seed, bed, dpiBefore, dpiAfter } = options;
  const plates = coverOf(options.coverSeed, widthMm, heightMm);
  const outline = sheetOutline(widthMm, heightMm, options.coverSeed);
  const washing: Washing = {
    yellowingRemoved: options.yellowingRemoved,
    soilRemoved: options.soilRemoved,
    inkLoss: options.inkLoss,
    dullBlack: options.dullBlack,
    bleedingInk: options.bleed?.ink ?? null,
  };
  const wear = { seed: seed + 100, worn: options.worn };
  const conditionsBefore = paperConditions(plates, {
    ...wear,
    tideLine: null,
    bleed: null,
    unevenCleaning: 0,
  });
  const { tideLine, bleed, unevenCleaning } = options;
  const conditionsAfter =
    tideLine === null && bleed === null && unevenCleaning === 0
      ? conditionsBefore
      : paperConditions(plates, { ...wear, tideLine, bleed, unevenCleaning });

  const laidBefore = layOut(
    options,
    options.rotationBeforeDegrees,
    1,
    [0, 0],
    options.cardAngleBeforeDegrees,
    -1,
  );
  const laidAfter = layOut(
    options,
    options.rotationAfterDegrees,
    Math.max(options.scaleX, options.scaleY),
    options.shiftMm,
    options.cardAngleAfterDegrees,
    1,
  );
  const placementBefore: Placement = {
    rotationDegrees: options.rotationBeforeDegrees,
    scaleX: 1,
    scaleY: 1,
    middle: laidBefore.middle,
    cockleMm: 0,
    shortestWaveMm: options.shortestWaveMm,
    cockleSeed: 0,
    mirrored: false,
  };
  const placementAfter: Placement = {
    rotationDegrees: options.rotationAfterDegrees,
    scaleX: options.scaleX,
    scaleY: options.scaleY,
    middle: laidAfter.middle,
    cockleMm: options.cockleMm,
    shortestWaveMm: options.shortestWaveMm,
    cockleSeed: seed + 200,
    mirrored: options.afterShows === "mirrored",
  };
  const mapBefore = sheetMap(placementBefore, widthMm, heightMm);
  const mapAfter = sheetMap(placementAfter, widthMm, heightMm);
  const platesAfter =
    options.afterShows === "other"
      ? coverOf(options.coverSeed + 1, widthMm, heightMm)
      : options.afterShows === "blank"
        ? blankPlates(widthMm, heightMm)
        : plates;

  const grainSeed = 1000 + 10 * options.coverSeed;
  const paperOf = { outline, grain: options.grain, mottle: options.mottle };
  const sheetBefore: LaidSheet = {
    ...paperOf,
    plates,
    blocks: flatBlocks(plates),
    conditions: conditionsBefore,
    primaries: sheetPrimaries(UNWASHED, bed),
    map: mapBefore,
    texture: paperTexture(grainSeed),
  };
  const another =
    options.regrain || options.afterShows === "other" || options.afterShows === "blank";
  const sheetAfter: LaidSheet = {
    ...paperOf,
    plates: platesAfter,
    blocks: platesAfter === plates ? sheetBefore.blocks : flatBlocks(platesAfter),
    conditions: conditionsAfter,
    primaries: sheetPrimaries(washing, bed),
    map: mapAfter,
    texture: another ? paperTexture(grainSeed + 5) : sheetBefore.texture,
  };
  const before: FrameScene = { ...laidBefore, dpi: dpiBefore, bed, sheet: sheetBefore };
  const after: FrameScene = { ...laidAfter, dpi: dpiAfter, bed, sheet: sheetAfter };
  const scanner = (own: number): Scanner => ({
    drift: options.drift,
    black: options.black,
    unevenness: options.unevenness,
    noise: options.noise,
    blur: options.blur,
    bitDepth: options.bitDepth,
    seed: 31 * seed + own,
  });

  const mmOf = (pixel: number, dpi: number): number => ((pixel + 0.5) * 25.4) / dpi;
  const pixelOf = (mm: number, dpi: number): number => (mm * dpi) / 25.4 - 0.5;
  const toSheet = (x: number, y: number): Point =>
    mapBefore.toSheet(mmOf(x, dpiBefore), mmOf(y, dpiBefore));
  const beforeAt = (x: number, y: number): Point => {
    const [u, v] = mapBefore.toFrame(x, y);
    return [pixelOf(u, dpiBefore), pixelOf(v, dpiBefore)];
  };
  const afterAt = (x: number, y: number): Point => {
    const [u, v] = mapAfter.toFrame(x, y);
    return [pixelOf(u, dpiAfter), pixelOf(v, dpiAfter)];
  };
  const labelOnSheet = (x: number, y: number): number => {
    const column = Math.floor(x / LATTICE_MM);
    const row = Math.floor(y / LATTICE_MM);
    if (column < 0 || row < 0 || column >= plates.columns || row >= plates.rows) return 0;
    return outline(x, y) > 0 ? 0 : plates.label[row * plates.columns + column];
  };
  const tallies = truthTallies({
    plates,
    conditionsBefore,
    conditionsAfter,
    outline,
    washing,
    backing: bed,
  });

  const cores = regionCores(plates);
  const stride = 2;
  const byLabel = new Map<number, ReturnType<typeof tallies>>();
  for (let row = 0; row < plates.rows; row += stride)
    for (let column = 0; column < plates.columns; column += stride) {
      const label = cores[row * plates.columns + column];
      if (label === 0) continue;
      const x = (column + 0.5) * LATTICE_MM;
      const y = (row + 0.5) * LATTICE_MM;
      if (outline(x, y) > -1) continue;
      let tally = byLabel.get(label);
      if (tally === undefined) byLabel.set(label, (tally = tallies()));
      tally.add(x, y);
    }
  const cellMm2 = (stride * LATTICE_MM) ** 2;
  const inks: RegionTruth[] = [];
  REGIONS.forEach((id, i) => {
    const tally = byLabel.get(i + 1);
    if (tally !== undefined) inks.push({ id, label: i + 1, ...tally.result(cellMm2) });
  });
  const margins = byLabel.get(PAPER_LABEL) ?? tallies();

  const labelDpi = 100;
  const [labelWidth, labelHeight] = framePixels({ ...before, dpi: labelDpi });
  const labelData = new Uint8Array(labelWidth * labelHeight);
  for (let y = 0; y < labelHeight; y++)
    for (let x = 0; x < labelWidth; x++)
      labelData[y * labelWidth + x] = labelOnSheet(
        ...mapBefore.toSheet(mmOf(x, labelDpi), mmOf(y, labelDpi)),
      );

  const cardAt = (card: CardPlacement | null, dpi: number): PairTruth["cardCornersBefore"] => {
    if (card === null) return null;
    const [a, b, c, d] = cardCorners(card).map(([x, y]): Point => [
      pixelOf(x, dpi),
      pixelOf(y, dpi),
    ]);
    return [a, b, c, d];
  };
  const truth: PairTruth = {
    mapBeforeToAfterPixels: (x, y) => afterAt(...toSheet(x, y)),
    mapAfterToBeforePixels: (x, y) =>
      beforeAt(...mapAfter.toSheet(mmOf(x, dpiAfter), mmOf(y, dpiAfter))),
    onSheet: (x, y, insetMm = 0) => {
      const [u, v] = toSheet(x, y);
      return u > 0 && v > 0 && u < widthMm && v < heightMm && outline(u, v) < -insetMm;
    },
    inks,
    paper: margins.result(cellMm2),
    labelAt: (x, y) => labelOnSheet(...toSheet(x, y)),
    labels: { width: labelWidth, height: labelHeight, dpi: labelDpi, data: labelData },
    over: (inside, stepMm = 0.3) => {
      const tally = tallies();
      for (let y = stepMm / 2; y < heightMm; y += stepMm)
        for (let x = stepMm / 2; x < widthMm; x += stepMm)
          if (outline(x, y) < 0 && inside(...beforeAt(x, y))) tally.add(x, y);
      return tally.result(stepMm * stepMm);
    },
    sheetCornersBefore: corners(widthMm, heightMm, beforeAt),
    sheetCornersAfter: corners(widthMm, heightMm, afterAt),
    cardCornersBefore: cardAt(before.card, dpiBefore),
    cardCornersAfter: cardAt(after.card, dpiAfter),
  };
  return { before, after, scannerBefore: scanner(1), scannerAfter: scanner(2), truth };
}

/**
 * Two scans of an invented cover, before and after a washing of known effect.
 * @param options What differs from {@link PAIR_DEFAULTS}.
 * @returns The rasters as a scanner's files would hold them, and the truth.
 */
export function renderPair(options: Partial<PairOptions> = {}): RenderedPair {
  const { before, after, scannerBefore, scannerAfter, truth } = pairScenes(options);
  return {
    before: renderFrame(before, scannerBefore),
    after: renderFrame(after, scannerAfter),
    dpiBefore: before.dpi,
    dpiAfter: after.dpi,
    truth,
  };
}
