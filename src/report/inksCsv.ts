import { stringify } from "csv-stringify/sync";
import type { AreaReport, CompareResult } from "../compare/result.ts";

/** Digits of every figure: more than its uncertainty deserves, enough for arithmetic with the table. */
const DIGITS = 3;

function figure(value: number | null | undefined): string {
  return value === null || value === undefined ? "" : value.toFixed(DIGITS);
}

function areaCells(area: AreaReport): Record<string, string> {
  const [LBefore, aBefore, bBefore] = area.labBefore ?? [null, null, null];
  const [LAfter, aAfter, bAfter] = area.labAfter ?? [null, null, null];
  return {
    area_cm2: figure(area.areaCm2),
    L_before: figure(LBefore),
    a_before: figure(aBefore),
    b_before: figure(bBefore),
    L_after: figure(LAfter),
    a_after: figure(aAfter),
    b_after: figure(bAfter),
    dE00: figure(area.deltaE00),
    dE00_low_95: figure(area.deltaE00Low),
    dE00_high_95: figure(area.deltaE00High),
    dE00_floor: figure(area.floorDeltaE00),
    dL: figure(area.deltaL),
    dC: figure(area.deltaC),
    dH: figure(area.deltaH),
    pixel_dE00_median: figure(area.pixelDeltaE00.median),
    pixel_dE00_p95: figure(area.pixelDeltaE00.p95),
    grey_scale_step: figure(area.greyScaleStep),
  };
}

/**
 * The table of inks as CSV after RFC 4180: point decimals, unit in every column's name, no formula can run.
 * Lab is CIELAB D50, 2 degree; differences are CIEDE2000.
 */
export function inksCsv({ paper, inks }: CompareResult): string {
  const rows = [
    ...(paper === null
      ? []
      : [{ id: "paper", kind: "paper", ...areaCells(paper), verdict: paper.verdict }]),
    ...inks.map((ink) => ({
      id: ink.id,
      kind: ink.kind,
      ...areaCells(ink),
      paper_part_dE00: figure(ink.paperPartDeltaE00),
      ink_part_dE00: figure(ink.inkPartDeltaE00),
      ink_part_dE00_low_95: figure(ink.inkPartLow),
      ink_part_dE00_high_95: figure(ink.inkPartHigh),
      verdict: ink.verdict,
    })),
  ];
  const columns = [
    "id",
    "kind",
    ...Object.keys(areaCells(EMPTY_AREA)),
    "paper_part_dE00",
    "ink_part_dE00",
    "ink_part_dE00_low_95",
    "ink_part_dE00_high_95",
    "verdict",
  ];
  return stringify(rows, {
    header: true,
    columns,
    record_delimiter: "\r\n",
    escape_formulas: true,
  });
}

const EMPTY_AREA: AreaReport = {
  areaCm2: 0,
  pixels: 0,
  centroidPixels: [0, 0],
  labBefore: null,
  labAfter: null,
  deltaE00: null,
  deltaE00Low: null,
  deltaE00High: null,
  floorDeltaE00: null,
  deltaL: null,
  deltaC: null,
  deltaH: null,
  pixelDeltaE00: { median: null, p95: null },
  greyScaleStep: null,
};
