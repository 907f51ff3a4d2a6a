import type { Point } from "../../src/numeric/point.ts";
import type { Raster } from "../../src/raster/raster.ts";
import { cardCorners, cardSize } from "./cardFace.ts";
import type { PairOptions } from "./pairOptions.ts";
import { PAIR_DEFAULTS } from "./pairOptions.ts";
import { pairScenes } from "./pairScenes.ts";
import type { PairTruth } from "./pairTruth.ts";
import { renderFrame } from "./renderFrame.ts";
import { scannerOf } from "./scannerOf.ts";

export interface RenderedPair {
  readonly before: Raster;
  readonly after: Raster;
  readonly dpiBefore: number;
  readonly dpiAfter: number;
  readonly truth: PairTruth;
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

export interface RenderedCard {
  readonly raster: Raster;
  readonly dpi: number;
  /** Centres of the corner patches in pixels. */
  readonly corners: readonly [Point, Point, Point, Point];
}

const CARD_GAP_MM = 10;

/**
 * The card scanned alone under the settings of one scan of a pair, for a bed too small for sheet and card.
 * @param which Whose drift and resolution the scan shares.
 */
export function renderCardAlone(
  which: "before" | "after",
  options: Partial<PairOptions> = {},
): RenderedCard {
  const all: PairOptions = { ...PAIR_DEFAULTS, ...options };
  const dpi = which === "before" ? all.dpiBefore : all.dpiAfter;
  const pitchMm = all.cardPitchMm ?? 14;
  const [width, height] = cardSize(pitchMm);
  const widthMm = width + 2 * CARD_GAP_MM;
  const heightMm = height + 2 * CARD_GAP_MM;
  const angleDegrees = which === "before" ? all.cardAngleBeforeDegrees : all.cardAngleAfterDegrees;
  const card = { middle: [widthMm / 2, heightMm / 2] as const, angleDegrees, pitchMm };
  const raster = renderFrame(
    { widthMm, heightMm, dpi, bed: all.bed, sheet: null, card },
    scannerOf(all, which),
  );
  const [a, b, c, d] = cardCorners(card).map(([x, y]): Point => [
    (x * dpi) / 25.4 - 0.5,
    (y * dpi) / 25.4 - 0.5,
  ]);
  return { raster, dpi, corners: [a, b, c, d] };
}
