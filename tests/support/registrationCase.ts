import type { GreyImage } from "../../src/vision/features.ts";
import type { Point } from "../../src/numeric/point.ts";
import { quantile } from "../../src/numeric/statistics.ts";
import { mapPoint } from "../../src/register/mapPoint.ts";
import type { Registration } from "../../src/register/registration.ts";
import { trustAt } from "../../src/register/trustAt.ts";
import {
  frameOfSheetPlace,
  lieOf,
  printedSheet,
  renderScan,
  type ArtOptions,
  type Bed,
  type BedCard,
  type Condition,
  type Lie,
} from "./renderSheet.ts";

/** One side of a pair. */
export interface Side {
  readonly bed: Bed;
  readonly lie: Lie;
  readonly condition: Condition;
  readonly dpi: number;
  readonly noise: number;
  readonly card?: BedCard;
}

export interface RenderedSide extends Side {
  readonly image: GreyImage;
}

export function renderSide(art: ArtOptions, side: Side, noiseSeed: number): RenderedSide {
  const image = renderScan({
    bed: side.bed,
    sheet: art,
    toSheet: lieOf(side.lie, side.bed, art),
    grey: printedSheet(art)(side.condition),
    dpi: side.dpi,
    noise: side.noise,
    noiseSeed,
    ...(side.card ? { card: side.card } : {}),
  });
  return { ...side, image };
}

const fullPixels = (mm: number, dpi: number): number => (mm * dpi) / 25.4 - 0.5;

/** Corners of the sheet in a frame, full pixels. */
export function outlineOf(art: ArtOptions, { bed, lie, dpi }: Side): Point[] {
  const toSheet = lieOf(lie, bed, art);
  return (
    [
      [0, 0],
      [art.widthMm, 0],
      [art.widthMm, art.heightMm],
      [0, art.heightMm],
    ] as const
  ).map(([x, y]) => {
    const [u, v] = frameOfSheetPlace(toSheet, lie, x, y, [bed.widthMm / 2, bed.heightMm / 2]);
    return [fullPixels(u, dpi), fullPixels(v, dpi)];
  });
}

/** Corners of the card in a frame, 1 mm wider on all sides, full pixels. */
export function cardOutline({ card, dpi }: Side): Point[][] {
  if (card === undefined) return [];
  const [x0, x1] = [card.leftMm - 1, card.leftMm + card.widthMm + 1].map((mm) =>
    fullPixels(mm, dpi),
  );
  const [y0, y1] = [card.topMm - 1, card.topMm + card.heightMm + 1].map((mm) =>
    fullPixels(mm, dpi),
  );
  return [
    [
      [x0, y0],
      [x1, y0],
      [x1, y1],
      [x0, y1],
    ],
  ];
}

/** Where a place of the before frame truly lies in the after frame, full pixels of each. */
export function truePlace(art: ArtOptions, before: Side, after: Side, x: number, y: number): Point {
  const inMm = (pixels: number): number => ((pixels + 0.5) * 25.4) / before.dpi;
  const onSheet = new Float64Array(2);
  lieOf(before.lie, before.bed, art)(inMm(x), inMm(y), onSheet);
  const [u, v] = frameOfSheetPlace(
    lieOf(after.lie, after.bed, art),
    after.lie,
    onSheet[0],
    onSheet[1],
    [after.bed.widthMm / 2, after.bed.heightMm / 2],
  );
  return [fullPixels(u, after.dpi), fullPixels(v, after.dpi)];
}

/** Errors against the truth, px at 600 dpi. */
export interface Residuals {
  readonly rms: number;
  readonly p95: number;
  readonly max: number;
  /** Where the map calls itself trusted. */
  readonly trustedP95: number;
  readonly trustedShare: number;
  readonly places: number;
}

/** Compares a map with the truth on a 3 mm grid of the sheet, `marginMm` in from its edge, as far as both frames show it. */
export function residuals(
  registration: Registration,
  art: ArtOptions,
  before: Side,
  after: Side,
  marginMm = 3,
): Residuals {
  const toSheet = {
    before: lieOf(before.lie, before.bed, art),
    after: lieOf(after.lie, after.bed, art),
  };
  const errors: number[] = [];
  const trusted: number[] = [];
  for (let y = marginMm; y <= art.heightMm - marginMm; y += 3)
    for (let x = marginMm; x <= art.widthMm - marginMm; x += 3) {
      const [bx, by] = frameOfSheetPlace(toSheet.before, before.lie, x, y, [x, y]);
      const [ax, ay] = frameOfSheetPlace(toSheet.after, after.lie, x, y, [x, y]);
      if (ax < 0 || ay < 0 || ax > after.bed.widthMm || ay > after.bed.heightMm) continue;
      if (bx < 0 || by < 0 || bx > before.bed.widthMm || by > before.bed.heightMm) continue;
      const px = fullPixels(bx, before.dpi);
      const py = fullPixels(by, before.dpi);
      const [mx, my] = mapPoint(registration, px, py);
      const error =
        (Math.hypot(mx - fullPixels(ax, after.dpi), my - fullPixels(ay, after.dpi)) * 600) /
        after.dpi;
      errors.push(error);
      if (trustAt(registration, px, py) > 0.8) trusted.push(error);
    }
  return {
    rms: Math.sqrt(errors.reduce((sum, e) => sum + e * e, 0) / errors.length),
    p95: quantile(errors, 0.95),
    max: Math.max(...errors),
    trustedP95: quantile(trusted, 0.95),
    trustedShare: trusted.length / errors.length,
    places: errors.length,
  };
}
