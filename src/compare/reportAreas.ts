import type { Box } from "../grid/box.ts";
import { paperField, paperUnder } from "../change/paperField.ts";
import { type PaperAndInk, splitPaperAndInk } from "../change/splitPaperAndInk.ts";
import type { AreaDifference } from "../calibrate/prepareFloor.ts";
import { evenCovariance, sum3 } from "../change/congruent.ts";
import type { Planes } from "../grid/planes.ts";
import type { SoughtPaper } from "../regions/seekPaper.ts";
import { MIXTURE } from "../change/surfaceDoubt.ts";
import { surfacesOfSheet } from "../change/surfacesOfSheet.ts";
import type { Surface } from "../print/expectUntouched.ts";
import { inkVerdict, paperVerdict } from "../change/verdicts.ts";
import { yellownessOfLab } from "../colour/yellownessOfLab.ts";
import { type Ink, type Region, type RegionMap, PAPER_LABEL } from "../regions/regionMap.ts";
import {
  type MeasuredAreaResult,
  type MeasuredPair,
  measureArea,
  NOT_MEASURED,
} from "./measureAreas.ts";
import { measuredCells } from "./measuredCells.ts";
import type {
  InkReport,
  PaperReport,
  RegionReport,
  PaperSource,
} from "../results/compareResult.ts";

const NO_CELLS = new Int32Array(0);

/** Measures the paper, every ink and every listed region of a registered pair. */
export function reportAreas(
  pair: MeasuredPair,
  regions: RegionMap,
  usable: Uint8Array,
): {
  readonly paper: PaperReport;
  readonly inks: readonly InkReport[];
  /** How the inks most likely lie on their paper. */
  readonly surface: Surface;
} {
  const { ofLabel: byInk, ofRegion: byRegion } = measuredCells(regions, pair.mmPerCell, usable);
  const judged = regions.inks.length + 1;
  const paperArea =
    regions.paper === null
      ? null
      : measureArea(pair, byInk.get(PAPER_LABEL) ?? NO_CELLS, regions.paper.areaCm2, judged);
  const field = paperField(pair.view, byInk.get(PAPER_LABEL) ?? NO_CELLS);
  const listed = regions.inks.reduce((sum, ink) => sum + ink.regions.length, 0);
  const areas = regions.inks.map((ink) => {
    const cells = byInk.get(ink.label) ?? NO_CELLS;
    return {
      ink,
      area: measureArea(pair, cells, ink.areaCm2, judged),
      share: ink.cells === 0 ? 0 : cells.length / ink.cells,
      under: paperUnder(field, pair.view, cells),
    };
  });
  const paper = !paperArea?.measured ? null : doubtedPaper(paperArea.measured, regions.sought);
  const surface =
    paper === null
      ? MIXTURE
      : surfacesOfSheet(
          areas.flatMap(({ area, under }) =>
            area.measured === null ? [] : [{ ink: area.measured, under }],
          ),
          paper,
        );
  return {
    surface: surface.likely,
    paper: {
      ...(paperArea === null ? unseenPaper(regions, pair.before) : reportPaper(paperArea)),
      source: paperSource(regions),
      sigmaDeltaE00: regions.sought.sigmaDeltaE00,
    },
    inks: areas.map(({ ink, area, share, under }) => {
      const parts =
        area.measured === null || paper === null
          ? null
          : splitPaperAndInk(area.measured, paper, under, surface);
      return reportInk(
        ink,
        area,
        // Too few cells to be measured speak for nothing.
        area.measured === null ? 0 : share,
        parts,
        ink.regions.map((region) => reportRegion(pair, region, byRegion, listed)),
      );
    }),
  };
}

/** A paper misjudged by a pale tint is misjudged in its change by this share of that: what the tint's ink may lose. */
const TINT_LOSS = 0.3;

function doubtedPaper(measured: AreaDifference, { sigmaDeltaE00 }: SoughtPaper): AreaDifference {
  const doubt = evenCovariance(TINT_LOSS * (sigmaDeltaE00 ?? 0), measured.labAfter);
  return { ...measured, covariance: sum3(measured.covariance, doubt) };
}

/** Corrections by hand can make paper of what was not found to be it, and the other way. */
function paperSource({ paper, sought }: RegionMap): PaperSource {
  const unseen = sought.source === "estimated" || sought.source === "none";
  if (paper !== null) return unseen ? "given" : sought.source;
  return sought.lab === null ? "none" : "estimated";
}

/** The paper of a sheet on which none can be measured. */
function unseenPaper({ sought, sheet }: RegionMap, { stepX, stepY }: Planes): SeenPaper {
  const [x, y, w, h] = sheet.box ?? [0, 0, 0, 0];
  return {
    areaCm2: 0,
    pixels: 0,
    centroidPixels: [(x + w / 2) * stepX - 0.5, (y + h / 2) * stepY - 0.5],
    ...NOT_MEASURED,
    labBefore: sought.lab,
    verdict: "uncertain",
    deltaA: null,
    deltaB: null,
    yellownessBefore: sought.lab === null ? null : yellownessOfLab(sought.lab),
    yellownessAfter: null,
  };
}

type SeenPaper = Omit<PaperReport, "source" | "sigmaDeltaE00">;

function reportPaper({ report, measured }: MeasuredAreaResult): SeenPaper {
  if (measured === null)
    return {
      ...report,
      verdict: "uncertain",
      deltaA: null,
      deltaB: null,
      yellownessBefore: null,
      yellownessAfter: null,
    };
  const { deltaL, deltaA, deltaB } = measured.split;
  return {
    ...report,
    verdict: paperVerdict(
      {
        deltaL: deltaL.value,
        deltaB: deltaB.value,
        floorL: deltaL.high - deltaL.value,
        floorB: deltaB.high - deltaB.value,
      },
      measured.floor,
    ),
    deltaA: deltaA.value,
    deltaB: deltaB.value,
    yellownessBefore: yellownessOfLab(measured.labBefore),
    yellownessAfter: yellownessOfLab(measured.labAfter),
  };
}

function reportInk(
  { id, kind, label }: Ink,
  { report, measured }: MeasuredAreaResult,
  measuredShare: number,
  parts: PaperAndInk | null,
  regions: readonly RegionReport[],
): InkReport {
  return {
    ...report,
    id,
    kind,
    label,
    paperPartDeltaE00: parts?.paperPart ?? null,
    inkPartDeltaE00: parts?.inkPart ?? null,
    inkPartLow: parts?.low ?? null,
    inkPartHigh: parts?.high ?? null,
    measuredShare,
    verdict: measured === null ? "uncertain" : inkVerdict(measured.deltaE00, measured.floor, parts),
    regions,
  };
}

function reportRegion(
  pair: MeasuredPair,
  region: Region,
  byRegion: ReadonlyMap<number, Int32Array>,
  listed: number,
): RegionReport {
  const [x, y, width, height] = region.box;
  const { stepX, stepY } = pair.before;
  const boxPixels: Box = [
    Math.round(x * stepX),
    Math.round(y * stepY),
    Math.round(width * stepX),
    Math.round(height * stepY),
  ];
  const cells = byRegion.get(region.component) ?? NO_CELLS;
  const { report } = measureArea(pair, cells, region.areaCm2, listed);
  const middle = [boxPixels[0] + boxPixels[2] / 2, boxPixels[1] + boxPixels[3] / 2] as const;
  return {
    ...report,
    centroidPixels: cells.length === 0 ? middle : report.centroidPixels,
    id: region.id,
    boxPixels,
  };
}
