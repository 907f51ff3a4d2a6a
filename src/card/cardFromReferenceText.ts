import type { Triple } from "../numeric/triple.ts";
import { LastrinseError } from "../errors.ts";
import type { Card, CardPatch } from "./card.ts";
import { CARDS } from "./cards.ts";
import { labsOfTable } from "./labsOfTable.ts";
import type { ReferenceRow, ReferenceTable, ReferenceText } from "./readReferenceText.ts";
import { readReferenceText } from "./readReferenceText.ts";

/** A patch with less chroma is one of the greys: greys of charts and prints stay below 5, the dullest colours lie above 14. */
const NEUTRAL_CHROMA = 8;

/** Fields that may say where a patch sits, in the order in which they are believed. */
const PLACE_FIELDS = ["SAMPLEID", "SAMPLELOC", "SAMPLELOCATION", "SAMPLENAME"];
const NAME_FIELDS = ["SAMPLENAME", "NAME", "SAMPLELOC", "SAMPLEID"];

interface Layout {
  readonly rows: number;
  readonly columns: number;
}

/**
 * A card from a text reference file (see {@link readReferenceText}): the first table that has a colour for every patch of a
 * known layout (4 x 6, or the strip's) or of the layout its ids or its row length tell.
 * @param name What the card is called: the path of the file.
 * @throws {LastrinseError} `unreadable`, naming what is missing and where.
 */
export function cardFromReferenceText(text: string, name: string): Card {
  const reference = readReferenceText(text, name);
  const problems: string[] = [];
  for (const table of reference.tables) {
    const card = cardOfTable(table, reference, name);
    if (typeof card !== "string") return card;
    problems.push(card);
  }
  throw new LastrinseError(
    "unreadable",
    `Expected reference values for the patches of a card in ${name}, received ${problems.join("; ")}.`,
    {
      remedy: `Give a file with one row for each patch and the columns LAB_L, LAB_A, LAB_B (D50, 2 degree); the layouts known are ${LAYOUTS.map(({ rows, columns }) => `${rows * columns} patches in ${rows} rows of ${columns}`).join(", ")}.`,
      input: name,
    },
  );
}

/** Layouts of the built-in cards, each once. */
const LAYOUTS: readonly Card[] = CARDS.filter(
  ({ rows, columns }, i) =>
    CARDS.findIndex((other) => other.rows === rows && other.columns === columns) === i,
);

function cardOfTable(table: ReferenceTable, reference: ReferenceText, name: string): Card | string {
  const from = `the table in line ${table.line}`;
  const colours = labsOfTable(table);
  if ("problem" in colours)
    return `${from}: ${colours.problem}${colours.line === null ? "" : ` (line ${colours.line})`}`;
  const layout = layoutOf(table);
  if (typeof layout === "string") return `${from}: ${layout}`;
  const order = orderOf(table, layout);
  const notes = [...reference.notes, ...colours.notes, ...order.notes];
  const patches = order.rows.map((row) =>
    patchOf(table, row, colours.labs[table.rows.indexOf(row)]),
  );
  const known = LAYOUTS.find(({ rows, columns }) => rows === layout.rows && columns === layout.columns); // prettier-ignore
  const title = (table.keywords.get("DESCRIPTOR") ?? table.keywords.get("FILEDESCRIPTOR"))?.[0];
  return {
    name,
    title: title ?? `${patches.length}-patch card of a reference file`,
    rows: layout.rows,
    columns: layout.columns,
    patches: withUniqueNames(patches),
    pitchMm: known?.pitchMm ?? null,
    measured: true,
    source: `reference file ${name}, CIELAB D50, 2 degree`,
    notes,
  };
}

function patchOf(table: ReferenceTable, { cells }: ReferenceRow, lab: Triple): CardPatch {
  const column = NAME_FIELDS.map((field) => table.fields.indexOf(field)).find((at) => at >= 0);
  return {
    name: column === undefined ? "" : cells[column],
    lab,
    neutral: Math.hypot(lab[1], lab[2]) < NEUTRAL_CHROMA,
  };
}

/** Names that are missing or repeat get the place of the patch behind them: warnings and tables tell patches by name. */
function withUniqueNames(patches: readonly CardPatch[]): CardPatch[] {
  const count = (name: string): number => patches.filter((patch) => patch.name === name).length;
  return patches.map((patch, i) =>
    patch.name !== "" && count(patch.name) === 1
      ? patch
      : { ...patch, name: `${patch.name} ${i + 1}`.trim() },
  );
}

function layoutOf(table: ReferenceTable): Layout | string {
  const count = table.rows.length;
  const rowLength = Number(table.keywords.get("LGOROWLENGTH")?.[0]);
  if (Number.isInteger(rowLength) && rowLength > 1 && count > rowLength && count % rowLength === 0)
    return { rows: count / rowLength, columns: rowLength };
  const known = LAYOUTS.find(({ rows, columns }) => rows * columns === count);
  if (known !== undefined) return known;
  return `${count} sets${missingPlaces(table)}`;
}

/** Which places of a layout no row names, where the ids tell. */
function missingPlaces(table: ReferenceTable): string {
  for (const layout of LAYOUTS) {
    const total = layout.rows * layout.columns;
    if (table.rows.length > total) continue;
    for (const field of PLACE_FIELDS) {
      const places = placesBy(table, field, layout);
      if (places === null) continue;
      const missing = Array.from({ length: total }, (_, i) => i).filter((i) => !places.includes(i));
      if (missing.length === 0 || missing.length > total / 2) continue;
      const names = missing.map((i) => `${"ABCDEFGH"[Math.floor(i / layout.columns)]}${(i % layout.columns) + 1}`); // prettier-ignore
      return ` of ${total}; missing are ${names.join(", ")}`;
    }
  }
  return "";
}

/** Rows in card order, row-major: by their ids where these name every place once, else as they stand in the file. */
function orderOf(
  table: ReferenceTable,
  layout: Layout,
): { readonly rows: readonly ReferenceRow[]; readonly notes: readonly string[] } {
  for (const field of PLACE_FIELDS) {
    const places = placesBy(table, field, layout);
    if (places === null || new Set(places).size < table.rows.length) continue;
    const rows = new Array<ReferenceRow>(table.rows.length);
    places.forEach((place, i) => {
      rows[place] = table.rows[i];
    });
    return { rows, notes: [] };
  }
  return {
    rows: table.rows,
    notes: [
      "No column names every place of the card once: the rows are taken in the order of the file.",
    ],
  };
}

/**
 * The place of every row, row-major from 0, by one field; null where a cell names no place of the layout. Understood are a
 * letter and a number (letter the row, number the column from 1; letter the column where only that fits), and plain numbers
 * from 1 or from 0.
 */
function placesBy(
  table: ReferenceTable,
  field: string,
  { rows, columns }: Layout,
): number[] | null {
  const column = table.fields.indexOf(field);
  if (column < 0) return null;
  const cells = table.rows.map(({ cells: values }) => values[column]);
  const pairs = cells.map((cell) => /^([A-Z])0*([1-9]\d*)$/i.exec(cell));
  if (pairs.every((pair) => pair !== null)) {
    const letters = pairs.map(([, letter]) => letter.toUpperCase().charCodeAt(0) - 65);
    const numbers = pairs.map(([, , number]) => Number(number) - 1);
    const fits = (values: readonly number[], limit: number): boolean =>
      values.every((v) => v < limit);
    if (fits(letters, rows) && fits(numbers, columns))
      return letters.map((letter, i) => letter * columns + numbers[i]);
    if (fits(letters, columns) && fits(numbers, rows))
      return letters.map((letter, i) => numbers[i] * columns + letter);
    return null;
  }
  if (!cells.every((cell) => /^\d+$/.test(cell))) return null;
  const numbers = cells.map(Number);
  const first = Math.min(...numbers) === 0 ? 0 : 1;
  const places = numbers.map((number) => number - first);
  return places.every((place) => place < rows * columns) ? places : null;
}
