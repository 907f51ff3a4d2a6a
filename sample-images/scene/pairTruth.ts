import type { Point } from "../../src/numeric/point.ts";
import { cardCorners } from "./cardFace.ts";
import type { CardPlacement } from "./cardFace.ts";
import { REGIONS } from "./cover.ts";
import type { RegionId } from "./cover.ts";
import { framePixels } from "./frame.ts";
import type { FrameScene } from "./paintFrame.ts";
import type { SheetMap } from "./placement.ts";
import { LATTICE_MM, PAPER_LABEL } from "./plates.ts";
import { CORE_MM, regionCores, truthTallies } from "./truth.ts";
import type { AreaTruth, TreatedSheet } from "./truth.ts";

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
  /** As `labelAt`, and 0 within 1 mm of another label: the places over which `inks` and `paper` are told. */
  readonly coreAt: (x: number, y: number) => number;
  readonly labels: LabelImage;
  /** Truth over any part of the before scan, such as a region that a program found. Places beside the sheet are left out. */
  readonly over: (inside: (x: number, y: number) => boolean, stepMm?: number) => AreaTruth;
  readonly sheetCornersBefore: readonly [Point, Point, Point, Point];
  readonly sheetCornersAfter: readonly [Point, Point, Point, Point];
  /** Centres of the corner patches; null without a card. */
  readonly cardCornersBefore: readonly [Point, Point, Point, Point] | null;
  readonly cardCornersAfter: readonly [Point, Point, Point, Point] | null;
}

function corners(
  width: number,
  height: number,
  at: (x: number, y: number) => Point,
): [Point, Point, Point, Point] {
  return [at(0, 0), at(width, 0), at(width, height), at(0, height)];
}

/** What is known of a pair before it is scanned. */
export function pairTruth(
  sheet: TreatedSheet,
  before: FrameScene,
  after: FrameScene,
  mapBefore: SheetMap,
  mapAfter: SheetMap,
): PairTruth {
  const { plates, outline } = sheet;
  const { widthMm, heightMm } = plates;
  const dpiBefore = before.dpi;
  const dpiAfter = after.dpi;
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
  const cores = regionCores(plates);
  const labelOnSheet = (plane: Uint8Array, x: number, y: number, insetMm: number): number => {
    const column = Math.floor(x / LATTICE_MM);
    const row = Math.floor(y / LATTICE_MM);
    if (column < 0 || row < 0 || column >= plates.columns || row >= plates.rows) return 0;
    return outline(x, y) > -insetMm ? 0 : plane[row * plates.columns + column];
  };
  const tallies = truthTallies(sheet);
  const stride = 2;
  const byLabel = new Map<number, ReturnType<typeof tallies>>();
  for (let row = 0; row < plates.rows; row += stride)
    for (let column = 0; column < plates.columns; column += stride) {
      const label = cores[row * plates.columns + column];
      if (label === 0) continue;
      const x = (column + 0.5) * LATTICE_MM;
      const y = (row + 0.5) * LATTICE_MM;
      if (outline(x, y) > -CORE_MM) continue;
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
        plates.label,
        ...mapBefore.toSheet(mmOf(x, labelDpi), mmOf(y, labelDpi)),
        0,
      );

  const cardAt = (card: CardPlacement | null, dpi: number): PairTruth["cardCornersBefore"] => {
    if (card === null) return null;
    const [a, b, c, d] = cardCorners(card).map(([x, y]): Point => [
      pixelOf(x, dpi),
      pixelOf(y, dpi),
    ]);
    return [a, b, c, d];
  };
  return {
    mapBeforeToAfterPixels: (x, y) => afterAt(...toSheet(x, y)),
    mapAfterToBeforePixels: (x, y) =>
      beforeAt(...mapAfter.toSheet(mmOf(x, dpiAfter), mmOf(y, dpiAfter))),
    onSheet: (x, y, insetMm = 0) => {
      const [u, v] = toSheet(x, y);
      return u > 0 && v > 0 && u < widthMm && v < heightMm && outline(u, v) < -insetMm;
    },
    inks,
    paper: margins.result(cellMm2),
    labelAt: (x, y) => labelOnSheet(plates.label, ...toSheet(x, y), 0),
    coreAt: (x, y) => labelOnSheet(cores, ...toSheet(x, y), CORE_MM),
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
}
