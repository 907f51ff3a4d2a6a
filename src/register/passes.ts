/** One pass of tile correlation. */
export interface Pass {
  readonly dpi: number;
  readonly windowMm: number;
  /** Search range on all sides, working pixels. */
  readonly reachPixels: number;
  /** Radius of the local mean and variance of the structure images. */
  readonly radiusMm: number;
  readonly leastNcc: number;
  /** Measurements that stand off their smooth neighbourhood by half of this keep a quarter of their weight. */
  readonly toleranceMm: number;
}

/** Nodes lie this far apart on the before sheet. */
export const NODE_SPACING_MM = 6;

/**
 * From coarse to fine. The coarse passes bring the error below half a period of a halftone screen (0.15 mm at 85 lines per
 * inch) before the 300 dpi passes, which then lock on the dots. Nothing above 300 dpi is needed.
 */
export const PASSES: readonly Pass[] = [
  { dpi: 48, windowMm: 24, reachPixels: 6, radiusMm: 5, leastNcc: 0.35, toleranceMm: 2.5 },
  { dpi: 96, windowMm: 12, reachPixels: 4, radiusMm: 3, leastNcc: 0.4, toleranceMm: 1.2 },
  { dpi: 96, windowMm: 9, reachPixels: 3, radiusMm: 3, leastNcc: 0.4, toleranceMm: 0.8 },
  { dpi: 150, windowMm: 7, reachPixels: 3, radiusMm: 3, leastNcc: 0.4, toleranceMm: 0.5 },
  { dpi: 150, windowMm: 7, reachPixels: 2, radiusMm: 3, leastNcc: 0.4, toleranceMm: 0.35 },
  { dpi: 300, windowMm: 5, reachPixels: 3, radiusMm: 3, leastNcc: 0.4, toleranceMm: 0.2 },
  { dpi: 300, windowMm: 5, reachPixels: 2, radiusMm: 3, leastNcc: 0.4, toleranceMm: 0.12 },
];

/** A file's 299 or 301 dpi is a 300 dpi scan. */
const DPI_TOLERANCE = 0.03;

/** The passes that a pair carries: none finer than its coarser frame. */
export function passesFor(coarserDpi: number): readonly Pass[] {
  return PASSES.filter(({ dpi }) => dpi <= coarserDpi * (1 + DPI_TOLERANCE));
}
