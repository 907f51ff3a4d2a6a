import { cellsByLabel } from "../grid/cellsByLabel.ts";
import type { ChangeView } from "../change/changeView.ts";
import { dullBlacks } from "../change/dullBlacks.ts";
import { findBleeds } from "../change/findBleeds.ts";
import { findTideLines } from "../change/findTideLines.ts";
import { unevenCleaning } from "../change/unevenCleaning.ts";
import type { RegionMap } from "../regions/regionMap.ts";
import { PAPER_LABEL } from "../regions/regionMap.ts";
import type { DamageReport, InkReport, PaperReport } from "../results/compareResult.ts";

/** What the finders need of the regions. */
export interface DamageRegions extends Pick<RegionMap, "labels" | "cores"> {
  readonly sheet: Pick<RegionMap["sheet"], "mask">;
}

/**
 * Looks for what a washer fears. Not only where the registration is trusted: a bleed changes the very edge that it holds on to, and flat paper, where
 * a tide line lies, gives it nothing to hold; between the trusted places the map is smooth, and all finders keep clear of printed edges.
 * @param areas What was measured of the same pair.
 */
export function findDamage(
  view: ChangeView,
  regions: DamageRegions,
  { paper, inks }: { readonly paper: PaperReport | null; readonly inks: readonly InkReport[] },
): DamageReport {
  const [L] = view.after;
  const { mask } = regions.sheet;
  const seen = new Uint8Array(mask.length);
  const cores = new Uint8Array(mask.length);
  for (let i = 0; i < mask.length; i++) {
    if (mask[i] === 0 || Number.isNaN(L[i])) continue;
    seen[i] = 1;
    cores[i] = regions.cores[i];
  }
  const tideLines = findTideLines(view, cores).map(({ boxPixels, widthMm, deltaB }) => ({
    boxPixels,
    widthMm,
    deltaB,
  }));
  if (
    paper === null ||
    paper.labBefore === null ||
    paper.labAfter === null ||
    paper.floorDeltaE00 === null
  )
    return { tideLines, bleeds: [], unevenCleaning: null, dullBlacks: null };

  const { labBefore, labAfter, floorDeltaE00 } = paper;
  const bleeds = findBleeds(
    view,
    regions.labels,
    seen,
    inks.flatMap((ink) =>
      ink.labBefore === null || ink.kind === "black"
        ? []
        : [{ id: ink.id, label: ink.label, labBefore: ink.labBefore }],
    ),
    labBefore,
  ).map(({ ink, boxPixels, reachMm }) => ({ ink, boxPixels, reachMm }));
  const bare = cellsByLabel(cores, seen).get(PAPER_LABEL) ?? new Int32Array(0);
  const blacks = inks.flatMap((ink) =>
    ink.kind !== "black" ||
    ink.labBefore === null ||
    ink.labAfter === null ||
    ink.inkPartLow === null
      ? []
      : [
          {
            areaCm2: ink.areaCm2,
            labBefore: ink.labBefore,
            labAfter: ink.labAfter,
            inkPartLow: ink.inkPartLow,
          },
        ],
  );
  return {
    tideLines,
    bleeds,
    unevenCleaning: unevenCleaning(view, bare, floorDeltaE00),
    dullBlacks: dullBlacks(blacks, labBefore, labAfter),
  };
}
