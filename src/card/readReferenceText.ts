import { LastrinseError } from "../errors.ts";

/** One row of a reference file: its cells, in the order of the table's fields. */
export interface ReferenceRow {
  /** Line of the file, from 1, where the row starts. */
  readonly line: number;
  readonly cells: readonly string[];
}

/** One table of a reference file. */
export interface ReferenceTable {
  /** Field names in upper case, letters and digits only: `Sample_ID`, `SampleID` and `SAMPLE_ID` are all SAMPLEID. */
  readonly fields: readonly string[];
  readonly rows: readonly ReferenceRow[];
  /** What the head says, by keyword in the same form; of a repeated keyword all values in turn. A later table inherits them. */
  readonly keywords: ReadonlyMap<string, readonly string[]>;
  /** Line of the file where the data begin. */
  readonly line: number;
}

export interface ReferenceText {
  readonly tables: readonly ReferenceTable[];
  /** What was missing, wrong or repaired, in words; empty for a file that keeps to the standard. */
  readonly notes: readonly string[];
}

interface Word {
  readonly text: string;
  readonly quoted: boolean;
}

/** Words that begin or end a part of the file, in normal form. */
const BEGIN_FORMAT = "BEGINDATAFORMAT";
const END_FORMAT = "ENDDATAFORMAT";
const BEGIN_DATA = "BEGINDATA";
const END_DATA = "ENDDATA";

/** Upper case, letters and digits only. */
export function normalWord(text: string): string {
  return text.toUpperCase().replace(/[^A-Z0-9*]/g, "");
}

/**
 * Reads a reference file in the text form of CGATS.17, ISO 28178 or IT8.7: keyword lines, a data format, rows of data, possibly
 * several tables. Takes real files as they come: any line end, comments, doubled quotes, private keywords, missing or wrong
 * counts, formats over several lines, rows over several lines.
 * @param text Decoded text.
 * @param input The file, for messages.
 * @throws {LastrinseError} `unreadable`, with the line: data without a format, a row with the wrong number of values, no table.
 */
export function readReferenceText(text: string, input?: string): ReferenceText {
  const lines = text.replace(/^\uFEFF/, "").split(/\r\n|\n|\r/);
  const notes: string[] = [];
  const tables: ReferenceTable[] = [];
  const keywords = new Map<string, string[]>();
  let fields: string[] = [];
  let format: string[] | null = null;
  let data: { line: number; words: Word[] }[] | null = null;
  let dataLine = 0;
  let counts: { fields?: number; sets?: number } = {};

  const refuse = (line: number, problem: string): LastrinseError =>
    new LastrinseError(
      "unreadable",
      `Expected a reference file of colour values (CGATS.17, ISO 28178 or IT8.7 text), received in line ${line}: ${problem}.`,
      { remedy: "Mend that line, or export the file again as plain text.", input },
    );
  const endFormat = (): void => {
    if (format === null) return;
    fields = format.map(normalWord);
    format = null;
    if (counts.fields !== undefined && counts.fields !== fields.length)
      notes.push(`The head says ${counts.fields} fields, counted ${fields.length}.`);
  };
  const endData = (closed: boolean): void => {
    if (data === null) return;
    const { rows, leftOver } = toRows(data, fields.length, refuse);
    if (!closed) notes.push(`The data that begin in line ${dataLine} have no end mark.`);
    if (leftOver !== null) {
      // Half a row is only let go where the file breaks off: a mangled end mark, a file cut short.
      if (closed) throw refuse(leftOver, `a row of fewer than ${fields.length} values`);
      notes.push(`Left out line ${leftOver}: fewer values than fields.`);
    }
    if (counts.sets === undefined)
      notes.push(`The head does not say how many sets there are; counted ${rows.length}.`);
    else if (counts.sets !== rows.length)
      notes.push(`Counted ${rows.length} rows, the head says ${counts.sets}.`);
    const inherited = new Map([...keywords].map(([key, values]) => [key, [...values]]));
    tables.push({ fields, rows, keywords: inherited, line: dataLine });
    data = null;
    counts = {};
  };

  for (const [index, raw] of lines.entries()) {
    const line = index + 1;
    let words = splitWords(raw, (problem) => notes.push(`Line ${line}: ${problem}.`));
    while (words.length > 0) {
      const mark = words.findIndex(
        ({ text: word, quoted }) => !quoted && /^(BEGIN|END)_?DATA/i.test(word),
      );
      const before = mark < 0 ? words : words.slice(0, mark);
      if (format !== null) {
        if (mark < 0 && isKeyword(before, "NUMBEROFSETS")) {
          endFormat();
          continue;
        }
        format.push(...before.map((word) => word.text));
      } else if (data !== null) {
        if (before.length > 0) data.push({ line, words: before });
      } else if (before.length > 0) readKeyword(before, keywords, counts);
      if (mark < 0) break;

      const name = normalWord(words[mark].text);
      words = words.slice(mark + 1);
      if (name === BEGIN_FORMAT) {
        endData(false);
        format = [];
      } else if (name === END_FORMAT) endFormat();
      else if (name === BEGIN_DATA) {
        endFormat();
        endData(false);
        if (fields.length === 0) throw refuse(line, "data before any data format");
        data = [];
        dataLine = line;
      } else if (name === END_DATA) endData(true);
    }
  }
  endData(false);
  if (tables.length === 0) throw refuse(lines.length, "the end of the file, and no data before it");
  return { tables, notes };
}

/** Splits a line at white space; quotes keep words together, a doubled quote inside stands for one, # begins a comment. */
function splitWords(line: string, note: (problem: string) => void): Word[] {
  const words: Word[] = [];
  let at = 0;
  while (at < line.length) {
    const character = line[at];
    if (/\s/.test(character) || character === "\0") at++;
    else if (character === "#") break;
    else if (character === '"') {
      let text = "";
      at++;
      for (; ; at++) {
        if (at >= line.length) {
          note("a quote is not closed");
          break;
        }
        if (line[at] !== '"') text += line[at];
        else if (line[at + 1] === '"') {
          text += '"';
          at++;
        } else break;
      }
      at++;
      words.push({ text, quoted: true });
    } else {
      const end = /[\s"]|$/.exec(line.slice(at))?.index ?? 0;
      words.push({ text: line.slice(at, at + end), quoted: false });
      at += end;
    }
  }
  return words;
}

function isKeyword([first]: readonly Word[], name: string): boolean {
  return first !== undefined && !first.quoted && normalWord(first.text) === name;
}

function readKeyword(
  words: readonly Word[],
  keywords: Map<string, string[]>,
  counts: { fields?: number; sets?: number },
): void {
  const [first, ...rest] = words;
  // A first line may be a bare sentence in quotes: nothing to look up.
  if (first.quoted) return;
  const key = normalWord(first.text);
  const value = rest.map((word) => word.text).join(" ");
  if (key === "NUMBEROFFIELDS" && /^\d+$/.test(value)) counts.fields = Number(value);
  else if (key === "NUMBEROFSETS" && /^\d+$/.test(value)) counts.sets = Number(value);
  else {
    const values = keywords.get(key);
    if (values === undefined) keywords.set(key, [value]);
    else values.push(value);
  }
}

/** Rows from lines: one row a line, or one row over several lines. `leftOver` is the line of an incomplete last row. */
function toRows(
  lines: readonly { readonly line: number; readonly words: readonly Word[] }[],
  columns: number,
  refuse: (line: number, problem: string) => LastrinseError,
): { rows: ReferenceRow[]; leftOver: number | null } {
  const rows: ReferenceRow[] = [];
  // Rows over several lines are believed only when every row breaks the same way as the first: else a missing value in one row
  // would shift all that follow.
  const breaks = lineBreaks(lines, columns);
  let pending: { line: number; cells: string[]; lines: number } | null = null;
  for (const [index, { line, words }] of lines.entries()) {
    pending ??= { line, cells: [], lines: 0 };
    pending.cells.push(...words.map((word) => word.text.trim()));
    pending.lines++;
    if (pending.cells.length === columns && pending.lines === breaks) {
      rows.push({ line: pending.line, cells: pending.cells });
      pending = null;
    } else if (pending.lines >= breaks) {
      if (index === lines.length - 1 && pending.cells.length < columns) break;
      throw refuse(
        pending.line,
        `${pending.cells.length} value${pending.cells.length === 1 ? "" : "s"} where the data format names ${columns} fields`,
      );
    }
  }
  return { rows, leftOver: pending?.line ?? null };
}

/** Over how many lines the first row runs; 1 where it can't be told. */
function lineBreaks(
  lines: readonly { readonly words: readonly Word[] }[],
  columns: number,
): number {
  let values = 0;
  for (const [index, { words }] of lines.entries()) {
    values += words.length;
    if (values === columns) return index + 1;
    if (values > columns) break;
  }
  return 1;
}
