import { adaptationMatrix } from "../colour/adapt.ts";
import { labToXyz, xyzD50ToLab } from "../colour/lab.ts";
import type { Triple } from "../numeric/triple.ts";
import { WHITE_C, WHITE_D50, WHITE_D65 } from "../colour/whites.ts";
import { multiply3Vector } from "../numeric/matrix3.ts";
import type { ReferenceTable } from "./readReferenceText.ts";

const LAB_FIELDS = [
  ["LABL", "LABA", "LABB"],
  ["L*", "A*", "B*"],
  ["LABL*", "LABA*", "LABB*"],
  ["CIEL", "CIEA", "CIEB"],
];
const XYZ_FIELDS = [
  ["XYZX", "XYZY", "XYZZ"],
  ["X", "Y", "Z"],
];

/** XYZ with a luminance above this are in percent: no patch reflects one and a half times the perfect diffuser. */
const LARGEST_UNIT_Y = 1.5;

/** Lab and XYZ columns of one file should say the same colours; beyond this mean distance they don't. */
const CONSISTENT = 1;

const WHITES: Record<string, Triple> = { D50: WHITE_D50, D65: WHITE_D65, C: WHITE_C };

/** What is wrong with a table, as words for a message; `line` where it can be told. */
export interface TableProblem {
  readonly problem: string;
  readonly line: number | null;
}

/**
 * CIELAB D50 of every row of a table: its Lab columns, or its XYZ columns (percent or 0..1), taken from the illuminant it
 * names to D50 by linear Bradford.
 * @returns The values and notes on what was assumed; or the problem, where there is no way to D50 Lab.
 */
export function labsOfTable(
  table: ReferenceTable,
): { readonly labs: Triple[]; readonly notes: string[] } | TableProblem {
  const columns = (names: readonly string[]): number[] =>
    names.map((name) => table.fields.indexOf(name));
  const present = (sets: readonly string[][]): number[] | undefined =>
    sets.map(columns).find((found) => found.every((column) => column >= 0));
  const labColumns = present(LAB_FIELDS);
  const xyzColumns = present(XYZ_FIELDS);
  if (labColumns === undefined && xyzColumns === undefined)
    return {
      problem: `neither LAB_L, LAB_A, LAB_B nor XYZ_X, XYZ_Y, XYZ_Z among the fields ${table.fields.join(" ")}`,
      line: table.line,
    };

  const notes: string[] = [];
  const light = illuminantOf(table);
  if (light.observerDegrees === 10)
    return { problem: "values for the 10 degree observer; 2 degree values are needed", line: null };
  const illuminant = light.illuminant ?? "D50";
  if (light.illuminant === null) notes.push("No illuminant is named: D50 assumed.");
  const white = WHITES[illuminant];
  if (white === undefined)
    return {
      problem: `values under illuminant ${illuminant}; D50, D65 or C can be used`,
      line: null,
    };

  const lab = labColumns && readTriples(table, labColumns, notes);
  const xyz = xyzColumns && readTriples(table, xyzColumns, notes);
  if (lab !== undefined && !Array.isArray(lab)) return lab;
  if (lab === undefined && xyz !== undefined && !Array.isArray(xyz)) return xyz;

  const toD50 = adaptationMatrix(white, WHITE_D50);
  const d50 = (own: Triple): Triple => xyzD50ToLab(multiply3Vector(toD50, own));
  if (illuminant !== "D50")
    notes.push(`Values under illuminant ${illuminant} were taken to D50 by linear Bradford.`);
  const fromXyz = Array.isArray(xyz) ? unitXyz(xyz).map(d50) : undefined;
  if (lab === undefined) {
    notes.push("Lab was computed from XYZ.");
    return { labs: fromXyz ?? [], notes };
  }
  const wrong = lab.findIndex(([L, a, b]) => L < -1 || L > 110 || Math.abs(a) > 160 || Math.abs(b) > 160); // prettier-ignore
  if (wrong >= 0)
    return {
      problem: `${lab[wrong].join(" ")}, which is no Lab colour`,
      line: table.rows[wrong].line,
    };
  const labs = illuminant === "D50" ? lab : lab.map((own) => d50(labToXyz(own, white)));
  if (fromXyz !== undefined) {
    const apart = labs.reduce((sum, own, i) => sum + distance(own, fromXyz[i]) / labs.length, 0);
    if (apart > CONSISTENT)
      notes.push(
        `Lab and XYZ columns differ by ${apart.toFixed(1)} on average; the Lab columns are used.`,
      );
  }
  return { labs, notes };
}

function distance(a: Triple, b: Triple): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}

/** XYZ with Y = 1 for the perfect diffuser. */
function unitXyz(xyz: readonly Triple[]): Triple[] {
  const percent = Math.max(...xyz.map(([, Y]) => Y)) > LARGEST_UNIT_Y;
  return xyz.map(([X, Y, Z]): Triple => (percent ? [X / 100, Y / 100, Z / 100] : [X, Y, Z]));
}

function readTriples(
  { rows }: ReferenceTable,
  columns: readonly number[],
  notes: string[],
): Triple[] | TableProblem {
  const triples: Triple[] = [];
  let commas = false;
  for (const { line, cells } of rows) {
    const values = columns.map((column) => {
      commas ||= cells[column].includes(",");
      return readNumber(cells[column]);
    });
    const wrong = values.findIndex(Number.isNaN);
    if (wrong >= 0) return { problem: `"${cells[columns[wrong]]}" where a number belongs`, line };
    triples.push([values[0], values[1], values[2]]);
  }
  if (commas && !notes.includes(COMMA_NOTE)) notes.push(COMMA_NOTE);
  return triples;
}

const COMMA_NOTE = "Commas were read as decimal signs.";

/** A number with a decimal point or a decimal comma, plain or scientific; NaN for anything else. */
function readNumber(text: string): number {
  return /^[+-]?(\d+[.,]?\d*|[.,]\d+)(e[+-]?\d+)?$/i.test(text)
    ? Number(text.replace(",", "."))
    : NaN;
}

/** Illuminant and observer from keywords of their own, else from the free text about the measurement. */
function illuminantOf({ keywords }: ReferenceTable): {
  illuminant: string | null;
  observerDegrees: number | null;
} {
  const text = (names: readonly string[]): string =>
    names.flatMap((name) => keywords.get(name) ?? []).join(" ");
  const own = text(["ILLUMINATIONNAME", "ILLUMINANT", "ILLUMINATION", "WHITEPOINT"]);
  const free = text(["MEASUREMENTSOURCE", "WEIGHTINGFUNCTION", "COMPUTATIONALPARAMETER"]);
  const named =
    /\b(D\d\d|F\d{1,2}|[ACE])\b/i.exec(own) ??
    /illum\w*\W{0,3}(D\d\d|F\d{1,2}|[ACE])\b/i.exec(free) ??
    /\b(D\d\d)\b/i.exec(free);
  const observer =
    /\b(2|10)\b/.exec(text(["OBSERVERANGLE", "OBSERVER"])) ??
    /(?:observ\w*\W{0,3})(2|10)\b/i.exec(free) ??
    /\b(2|10)\s*(?:°|deg)/i.exec(free);
  return {
    illuminant: named === null ? null : named[1].toUpperCase(),
    observerDegrees: observer === null ? null : Number(observer[1]),
  };
}
