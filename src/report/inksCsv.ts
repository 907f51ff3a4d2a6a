import { stringify } from "csv-stringify/sync";
import type { AreaReport, CompareResult } from "../results/compareResult.ts";
import type { TreatmentView } from "../record/treatmentView.ts";

/** Digits of every figure: more than its uncertainty deserves, enough for arithmetic with the table. */
const DIGITS = 3;

type Cell = string | number | null;
type Cells = Readonly<Record<string, Cell>>;

/** Numbers stay numbers: only texts are guarded against being taken for formulas, so a minus sign survives. */
function figure(value: number | null | undefined): number | null {
  return value === null || value === undefined || !Number.isFinite(value)
    ? null
    : Number(value.toFixed(DIGITS));
}

function areaCells(area: AreaReport): Cells {
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

const AREA_COLUMNS = [
  "area_cm2",
  "L_before",
  "a_before",
  "b_before",
  "L_after",
  "a_after",
  "b_after",
  "dE00",
  "dE00_low_95",
  "dE00_high_95",
  "dE00_floor",
  "dL",
  "dC",
  "dH",
  "pixel_dE00_median",
  "pixel_dE00_p95",
  "grey_scale_step",
];

const COLUMNS = [
  "id",
  "kind",
  ...AREA_COLUMNS,
  "paper_part_dE00",
  "ink_part_dE00",
  "ink_part_dE00_low_95",
  "ink_part_dE00_high_95",
  "verdict",
];

function rowsOf({ paper, inks }: CompareResult): Cells[] {
  return [
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
}

function write(rows: readonly Cells[], columns: readonly string[]): string {
  return stringify([...rows], {
    header: true,
    columns: [...columns],
    record_delimiter: "\r\n",
    escape_formulas: true,
  });
}

/**
 * The table of inks as CSV after RFC 4180: point decimals, unit in every column's name, no formula can run.
 * Lab is CIELAB D50, 2 degree; differences are CIEDE2000.
 */
export function inksCsv(result: CompareResult): string {
  return write(rowsOf(result), COLUMNS);
}

/** The same for every scanned side of a treatment, with the predicted fade beside what was measured on the washed front. */
export function treatmentCsv({ comparisons, fade, prediction }: TreatmentView): string {
  const rows = comparisons.flatMap(({ side, stage, compared }) =>
    compared === null
      ? []
      : rowsOf(compared.result).map((row) => {
          const checked = prediction !== null && side === "front" && stage === "washed";
          const guess = checked ? (fade[String(row.id)] ?? null) : null;
          return {
            side,
            stage,
            ...row,
            predicted_fade_dE00_low_90: figure(guess?.low),
            predicted_fade_dE00: figure(guess?.mid),
            predicted_fade_dE00_high_90: figure(guess?.high),
          };
        }),
  );
  return write(rows, [
    "side",
    "stage",
    ...COLUMNS,
    "predicted_fade_dE00_low_90",
    "predicted_fade_dE00",
    "predicted_fade_dE00_high_90",
  ]);
}
