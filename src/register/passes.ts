/** One pass of tile correlation. */
export interface Pass {
  readonly dpi: number;
  readonly windowMm: number;
  /** Search range on all sides, working pixels. */
  readonly reachPixels: number;
  /** Radius of the local mean and variance of the structure images. */
  readonly radiusMm: number;
  readonly leastNcc: number;
  /** Of the nodes along both axes, every so many are measured: a wide window tells the same at the next. */
  readonly everyNode: number;
  /** Measurements that stand off their smooth neighbourhood by half of this keep a quarter of their weight. */
  readonly toleranceMm: number;
}

/** Nodes lie this far apart on the before sheet. */
export const NODE_SPACING_MM = 6;

/**
 * From coarse to fine. The coarse passes bring the error below half a period of a halftone screen (0.15 mm at 85 lines per
 * inch) before the 300 dpi passes, which then lock on the dots. Nothing above 300 dpi is needed.
 */
// prettier-ignore
export const PASSES: readonly Pass[] = [
  { dpi: 48, windowMm: 24, reachPixels: 6, radiusMm: 5, leastNcc: 0.35, everyNode: 2, toleranceMm: 2.5 },
  { dpi: 96, windowMm: 12, reachPixels: 4, radiusMm: 3, leastNcc: 0.4, everyNode: 1, toleranceMm: 1.2 },
  { dpi: 96, windowMm: 9, reachPixels: 3, radiusMm: 3, leastNcc: 0.4, everyNode: 1, toleranceMm: 0.8 },
  { dpi: 150, windowMm: 7, reachPixels: 3, radiusMm: 1, leastNcc: 0.4, everyNode: 1, toleranceMm: 0.5 },
  { dpi: 150, windowMm: 7, reachPixels: 2, radiusMm: 1, leastNcc: 0.4, everyNode: 1, toleranceMm: 0.35 },
  { dpi: 300, windowMm: 5, reachPixels: 3, radiusMm: 1, leastNcc: 0.4, everyNode: 1, toleranceMm: 0.2 },
  { dpi: 300, windowMm: 5, reachPixels: 2, radiusMm: 1, leastNcc: 0.4, everyNode: 1, toleranceMm: 0.12 },
];

/** A file's 299 or 301 dpi is a 300 dpi scan. */
export const DPI_TOLERANCE = 0.03;

/**
 * From this resolution up, a frame short of 300 dpi still gains by the last passes at its own resolution (p95 at 200 dpi
 * 0.43 px instead of 0.58, at 600 dpi); at 150 dpi the beat of screen and pixels makes them worse.
 */
const LEAST_FINE_DPI = 200;

/**
 * The passes that a pair carries: none finer than its coarser frame. The 300 dpi passes come down to it, as far as 200 dpi,
 * with windows of as many pixels.
 */
export function passesFor(coarserDpi: number): readonly Pass[] {
  const most = coarserDpi * (1 + DPI_TOLERANCE);
  return PASSES.filter(({ dpi }) => dpi <= most || most >= LEAST_FINE_DPI).map((pass) =>
    pass.dpi <= most
      ? pass
      : { ...pass, dpi: coarserDpi, windowMm: (pass.windowMm * pass.dpi) / coarserDpi },
  );
}
