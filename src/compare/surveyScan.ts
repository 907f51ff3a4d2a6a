import type { SideRequest } from "./compareRequest.ts";
import { chooseCorrection } from "../calibrate/chooseCorrection.ts";
import type { Correction } from "../calibrate/correction.ts";
import { labOfMean } from "../calibrate/labOfMean.ts";
import type { Card } from "../card/card.ts";
import { cellsByLabel } from "../grid/cellsByLabel.ts";
import { meanOverCells } from "../grid/meanOverCells.ts";
import type { Triple } from "../numeric/triple.ts";
import type { Warning } from "../errors.ts";
import type { Planes } from "../grid/planes.ts";
import type { InkCorrections } from "../regions/inkCorrections.ts";
import type { KnownPaper } from "../regions/knownPaper.ts";
import type { SoughtPaper } from "../regions/seekPaper.ts";
import { PAPER_LABEL, type RegionMap } from "../regions/regionMap.ts";
import { paperWarnings } from "./paperWarnings.ts";
import { type Frame, openFrame } from "./openFrame.ts";
import { prepareScan } from "./prepareScan.ts";
import { scaleOfPair, scaleSource } from "./scaleOfPair.ts";

/** One ink as the before scan shows it. */
export interface SurveyedInk {
  readonly id: string;
  readonly kind: "ink" | "overprint" | "black";
  /** CIELAB D50 of its mean linear light; null where it is too thin to be measured. */
  readonly lab: Triple | null;
  readonly areaCm2: number;
}

/** What one scan shows: its inks, its paper, and the picture it was taken from. */
export interface ScanSurvey {
  readonly paperLab: Triple | null;
  /** Where the paper's colour comes from, and how far it may be off. */
  readonly sought: SoughtPaper;
  readonly inks: readonly SurveyedInk[];
  readonly regions: RegionMap;
  readonly planes: Planes;
  readonly correction: Correction;
  readonly dpi: number;
  readonly warnings: readonly Warning[];
}

export interface SurveyRequest extends SideRequest {
  readonly card: Card;
  readonly dpi?: number | undefined;
  readonly inks?: InkCorrections | undefined;
  readonly paper?: KnownPaper | undefined;
  readonly strict?: boolean | undefined;
}

/**
 * Finds the inks of one scan, with their colours and printed areas.
 * @throws {LastrinseError} Unreadable file, card not found or not to be trusted.
 */
export async function surveyScan(request: SurveyRequest): Promise<ScanSurvey> {
  const { card, strict = false } = request;
  const frame = await openFrame({ ...request, card, strict });
  try {
    return surveyFrame(frame, request);
  } finally {
    frame.pixels.release();
  }
}

function surveyFrame(frame: Frame, request: SurveyRequest): ScanSurvey {
  const { card, strict = false } = request;
  const source = scaleSource(frame, request.dpi, request.cardScan);
  const scale = scaleOfPair(source, source, card, strict);
  const choice = chooseCorrection([{ samples: frame.samples }], card);
  const { correction } = choice.frames[0];
  const { planes, findInks } = prepareScan(frame, correction, scale.before, request);
  const regions = findInks();
  const cells = cellsByLabel(regions.cores, regions.sheet.mask);
  const labOf = (label: number): Triple | null => {
    const own = cells.get(label);
    return own === undefined ? null : labOfMean(correction, meanOverCells(planes, own));
  };
  return {
    paperLab: labOf(PAPER_LABEL),
    sought: regions.sought,
    inks: regions.inks.map(({ id, kind, label, areaCm2 }) => ({
      id,
      kind,
      lab: labOf(label),
      areaCm2,
    })),
    regions,
    planes,
    correction,
    dpi: scale.before / planes.stepX,
    warnings: [
      ...frame.warnings,
      ...scale.warnings.slice(0, 1),
      ...choice.warnings,
      ...paperWarnings(cells.has(PAPER_LABEL), regions.sought),
    ],
  };
}
