import type { Correction } from "../calibrate/correction.ts";
import { planesToLab } from "../calibrate/planesToLab.ts";
import type { Planes } from "../grid/planes.ts";
import { MM_PER_INCH } from "../numeric/units.ts";
import { type Detail, findRegions } from "../regions/findRegions.ts";
import type { InkCorrections } from "../regions/inkCorrections.ts";
import type { KnownPaper } from "../regions/knownPaper.ts";
import type { RegionMap } from "../regions/regionMap.ts";
import { type SheetView, sheetView } from "../regions/sheetView.ts";
import type { Frame } from "./openFrame.ts";
import { reducedFrame } from "./reducedFrame.ts";

/** What is asked of the inks of a scan. */
export interface InkSearch {
  /** How many inks are told apart: see `findRegions`. */
  readonly detail?: Detail | undefined;
  readonly inks?: InkCorrections | undefined;
  readonly paper?: KnownPaper | undefined;
}

/** A calibrated scan on the measuring grid. */
export interface PreparedScan {
  readonly planes: Planes;
  readonly mmPerCell: number;
  readonly view: SheetView;
  /** Finds the inks; apart, since it takes longer than all the rest. */
  readonly findInks: () => RegionMap;
}

/**
 * Reduces a frame to the measuring grid and finds the sheet on it.
 * @param dpi Of the full frame, true by card or tag.
 * @throws {LastrinseError} No sheet found.
 */
export function prepareScan(
  frame: Frame,
  correction: Correction,
  dpi: number,
  { detail, inks, paper }: InkSearch,
): PreparedScan {
  const planes = reducedFrame(frame, correction, dpi);
  const { width, height, stepX, stepY } = planes;
  const mmPerCell = (stepX * MM_PER_INCH) / dpi;
  const [L, a, b] = planesToLab(planes, correction);
  const view = sheetView(
    { width, height, stepX, stepY, mmPerCell, L, a, b },
    frame.cardOutline === null ? [] : [frame.cardOutline],
  );
  const findInks = () =>
    findRegions(view, {
      ...(detail === undefined ? {} : { detail }),
      ...(inks === undefined ? {} : { corrections: inks }),
      ...(paper === undefined ? {} : { paper }),
    });
  return { planes, mmPerCell, view, findInks };
}
