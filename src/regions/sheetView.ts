import { edgeMask } from "./edgeMask.ts";
import type { Polygon } from "../grid/fillPolygon.ts";
import { findSheet, type Sheet } from "./findSheet.ts";
import type { LabImage } from "../grid/labImage.ts";
import { sharpenEdges } from "./sharpenEdges.ts";
import { smoothLab } from "./smoothLab.ts";

/** A scan made ready for finding its inks: where the sheet lies, and its colours without grain. */
export interface SheetView {
  readonly image: LabImage;
  readonly smooth: LabImage;
  /** `smooth` with the colours of either side carried up to each edge. */
  readonly crisp: LabImage;
  /** Cells too near an edge to be measured. */
  readonly edges: Uint8Array;
  readonly sheet: Sheet;
}

/**
 * Smooths a scan and finds the sheet in it.
 * @param image Lab of the before scan at about 100 to 150 cells per inch.
 * @param exclude Outline of the card, in full pixels; kept clear of by 2 mm.
 */
export function sheetView(image: LabImage, exclude: readonly Polygon[] = []): SheetView {
  const smooth = smoothLab(image);
  const edges = edgeMask(smooth);
  const crisp = sharpenEdges(smooth, edges);
  return { image, smooth, crisp, edges, sheet: findSheet(crisp, exclude) };
}
