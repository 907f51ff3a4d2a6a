import { stringify } from "csv-stringify/sync";
import type { CompareResult } from "../results/compareResult.ts";

/** Digits of every figure: more than its uncertainty deserves, enough for arithmetic with the table. */
const DIGITS = 4;

const figure = (value: number | null | undefined): number | null =>
  value === null || value === undefined ? null : Number(value.toFixed(DIGITS));

const COLUMNS = [
  "id",
  "name",
  "source",
  "solid_L",
  "solid_a",
  "solid_b",
  "mean_coverage_low",
  "mean_coverage_high",
  "lost",
  "lost_low",
  "lost_high",
  "dE00_low",
  "dE00_high",
  "verdict",
  "worst_place",
  "worst_lost",
  "worst_lost_low",
  "worst_lost_high",
];

/**
 * The printing inks as CSV after RFC 4180, one row each; the head alone where none were separated. Shares 0..1 of the ink's colourant;
 * Lab is CIELAB D50, 2 degree; differences are CIEDE2000.
 */
export function platesCsv({ plates }: CompareResult): string {
  return stringify(
    (plates ?? []).map((plate) => ({
      id: plate.id,
      name: plate.name,
      source: plate.source,
      solid_L: figure(plate.solidLab[0]),
      solid_a: figure(plate.solidLab[1]),
      solid_b: figure(plate.solidLab[2]),
      mean_coverage_low: figure(plate.meanCoverage[0]),
      mean_coverage_high: figure(plate.meanCoverage[1]),
      lost: figure(plate.lost),
      lost_low: figure(plate.low),
      lost_high: figure(plate.high),
      dE00_low: figure(plate.deltaE00[0]),
      dE00_high: figure(plate.deltaE00[1]),
      verdict: plate.verdict,
      worst_place: plate.worst?.place ?? null,
      worst_lost: figure(plate.worst?.lost),
      worst_lost_low: figure(plate.worst?.low),
      worst_lost_high: figure(plate.worst?.high),
    })),
    { header: true, columns: COLUMNS, record_delimiter: "\r\n", escape_formulas: true },
  );
}
