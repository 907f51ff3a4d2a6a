import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { cardFromReferenceText } from "../../src/card/cardFromReferenceText.ts";
import { cardNamed } from "../../src/card/cards.ts";
import { readReferenceText } from "../../src/card/readReferenceText.ts";
import { adaptationMatrix } from "../../src/colour/adapt.ts";
import { labToXyz, labToXyzD50, xyzToLab } from "../../src/colour/lab.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { WHITE_D50, WHITE_D65 } from "../../src/colour/whites.ts";
import { LastrinseError } from "../../src/errors.ts";
import { multiply3Vector } from "../../src/numeric/matrix3.ts";
import { sharedData, sharedDataAvailable } from "../support/sharedData.ts";

const chart = cardNamed("chart24-post2014");
if (chart === undefined) throw new Error("no chart");
const { patches } = chart;
const letters = "ABCD";
const id = (i: number): string => `${letters[Math.floor(i / 6)]}${(i % 6) + 1}`;

interface Form {
  readonly head?: readonly string[];
  readonly fields?: string;
  readonly row?: (patch: { readonly name: string; readonly lab: Triple }, i: number) => string;
  readonly tail?: readonly string[];
  readonly end?: string;
}

/** A reference file for the chart in the plainest form, with parts replaced. */
function file({ head, fields, row, tail, end = "\n" }: Form = {}): string {
  return [
    ...(head ?? ["CGATS.17", 'ILLUMINATION_NAME "D50"', "NUMBER_OF_FIELDS 4"]),
    "BEGIN_DATA_FORMAT",
    fields ?? "SAMPLE_ID LAB_L LAB_A LAB_B",
    "END_DATA_FORMAT",
    "NUMBER_OF_SETS 24",
    "BEGIN_DATA",
    ...patches.map(row ?? (({ lab }, i) => `${id(i)} ${lab.join(" ")}`)),
    ...(tail ?? ["END_DATA", ""]),
  ].join(end);
}

/** Largest difference of any L*, a*, b* from the chart's values. */
function apart(text: string): number {
  const card = cardFromReferenceText(text, "card.txt");
  expect([card.rows, card.columns]).toEqual([4, 6]);
  return Math.max(
    ...card.patches.flatMap(({ lab }, i) => lab.map((v, c) => Math.abs(v - patches[i].lab[c]))),
  );
}

function refusal(text: string): LastrinseError {
  try {
    cardFromReferenceText(text, "card.txt");
  } catch (error) {
    if (error instanceof LastrinseError) return error;
    throw error;
  }
  throw new Error("was not refused");
}

const notesOf = (text: string): readonly string[] =>
  cardFromReferenceText(text, "card.txt").notes ?? [];

test("the plainest file is read without a note", () => {
  expect(apart(file())).toBe(0);
  expect(notesOf(file())).toEqual([]);
});

describe("what real files look like", () => {
  const xyz = (lab: Triple, scale: number): string => labToXyzD50(lab).map((v) => (v * scale).toFixed(6)).join(" "); // prettier-ignore
  const forms: Record<string, string> = {
    "line ends CRLF": file({ end: "\r\n" }),
    "line ends lone CR": file({ end: "\r" }),
    "a byte-order mark": `\uFEFF${file()}`,
    "no final newline": file({ tail: ["END_DATA"] }),
    "first line CGATS.5": file({ head: ["CGATS.5", 'ILLUMINATION_NAME "D50"'] }),
    "first line IT8.7/2": file({ head: ["IT8.7/2", 'ILLUMINATION_NAME "D50"'] }),
    "first line ISO28178": file({ head: ["ISO28178", 'ILLUMINATION_NAME "D50"'] }),
    "first line a sentence": file({ head: ['"Measured on a Tuesday, BEGIN_DATA to follow"', 'ILLUMINATION_NAME "D50"'] }), // prettier-ignore
    "first line NUMBER_OF_FIELDS": file({ head: ["NUMBER_OF_FIELDS 4", 'ILLUMINATION_NAME "D50"'] }), // prettier-ignore
    SampleID: file({ fields: "SampleID LAB_L LAB_A LAB_B" }),
    Sample_ID: file({ fields: "Sample_ID Lab_L Lab_a Lab_b" }),
    "tabs, runs of spaces, trailing tabs": file({ row: ({ lab }, i) => `${id(i)}\t  ${lab.join("\t")}\t\t` }), // prettier-ignore
    "format over several lines": file({ fields: "SAMPLE_ID\n\tLAB_L LAB_A\n\nLAB_B" }),
    "format on one line with its marks": file().replace(/BEGIN_DATA_FORMAT\n(.*)\nEND_DATA_FORMAT/, "BEGIN_DATA_FORMAT $1 END_DATA_FORMAT"), // prettier-ignore
    "rows over two lines": file({ row: ({ lab }, i) => `${id(i)} ${lab[0]}\n  ${lab[1]} ${lab[2]}` }), // prettier-ignore
    comments: file({ row: ({ lab }, i) => `${id(i)} ${lab.join(" ")} # "seen" 7 8` }),
    "# and doubled quotes inside quotes": file({
      head: ['ORIGINATOR "No #1 ""best"" maker" # so they say', 'ILLUMINATION_NAME "D50"'],
    }),
    "quoted ids with a trailing space": file({ row: ({ lab }, i) => `"${id(i)} " ${lab.join(" ")}` }), // prettier-ignore
    "KEYWORD before private fields": file({
      head: ['KEYWORD "MEAN_DE"', 'KEYWORD "MY_NOTE"', 'MY_NOTE "x"', 'ILLUMINATION_NAME "D50"'],
      fields: "SAMPLE_ID MEAN_DE LAB_L LAB_A LAB_B",
      row: ({ lab }, i) => `${id(i)} 0.3 ${lab.join(" ")}`,
    }),
    "repeated keywords": file({
      head: ['CREATED "1"', 'DESCRIPTOR "a"', 'CREATED "2"', 'DESCRIPTOR "b"', 'ILLUMINANT "D50"'],
    }),
    "ids A01": file({ row: ({ lab }, i) => `${id(i)[0]}0${id(i)[1]} ${lab.join(" ")}` }),
    "ids from 1": file({ row: ({ lab }, i) => `${i + 1} ${lab.join(" ")}` }),
    "ids from 0": file({ row: ({ lab }, i) => `${i} ${lab.join(" ")}` }),
    "ids with the letter as column": file({ row: ({ lab }, i) => `${"ABCDEF"[i % 6]}${Math.floor(i / 6) + 1} ${lab.join(" ")}` }), // prettier-ignore
    "scientific numbers": file({ row: ({ lab }, i) => `${id(i)} ${lab.map((v) => v.toExponential(6)).join(" ")}` }), // prettier-ignore
    "spectral and statistical columns nobody asked for": file({
      fields: "SAMPLE_ID nm400 nm410 STDEV_L LAB_L LAB_A LAB_B MEAN_DE",
      row: ({ lab }, i) => `${id(i)} 0.1 0.2 0.01 ${lab.join(" ")} 0.4`,
    }),
    "both XYZ and Lab": file({
      fields: "SAMPLE_ID XYZ_X XYZ_Y XYZ_Z LAB_L LAB_A LAB_B",
      row: ({ lab }, i) => `${id(i)} ${xyz(lab, 100)} ${lab.join(" ")}`,
    }),
    "fields L* a* b*": file({ fields: "SAMPLE_ID L* a* b*" }),
  };
  test.each(Object.entries(forms))("%s", (_, text) => {
    expect(apart(text)).toBe(0);
  });

  test("rows in another order go to their places", () => {
    const rows = patches.map(({ lab }, i) => `${id(i)} ${lab.join(" ")}`);
    const text = file().replace(rows.join("\n"), rows.toReversed().join("\n"));
    expect(text).not.toBe(file());
    expect(apart(text)).toBe(0);
  });

  test("decimal commas, with a note", () => {
    const text = file({ row: ({ lab }, i) => `${id(i)} ${lab.map((v) => v.toFixed(2).replace(".", ",")).join(" ")}` }); // prettier-ignore
    expect(apart(text)).toBe(0);
    expect(notesOf(text).join()).toContain("decimal sign");
  });

  test.each([
    ["percent", 100],
    ["0..1", 1],
  ])("Lab missing, XYZ in %s", (_, scale) => {
    const text = file({
      fields: "SAMPLE_ID XYZ_X XYZ_Y XYZ_Z",
      row: ({ lab }, i) => `${id(i)} ${xyz(lab, scale)}`,
    });
    // Six decimals of XYZ in 0..1: 116/3 * 1e-6 / 0.03^(2/3) at the black patch, times 500/116 for a*.
    expect(apart(text)).toBeLessThan(0.002);
    expect(notesOf(text)).toContain("Lab was computed from XYZ.");
  });

  test("no counts, or wrong counts: rows are counted, and it is said", () => {
    const none = file().replace(/NUMBER_OF.*\n/g, "");
    expect(apart(none)).toBe(0);
    expect(notesOf(none).join()).toContain("counted 24");
    const wrong = file().replace("NUMBER_OF_SETS 24", "NUMBER_OF_SETS 22").replace("FIELDS 4", "FIELDS 5"); // prettier-ignore
    expect(apart(wrong)).toBe(0);
    expect(notesOf(wrong)).toContain("Counted 24 rows, the head says 22.");
    expect(notesOf(wrong)).toContain("The head says 5 fields, counted 4.");
  });

  test("the second of two tables is taken where the first has no colours", () => {
    const text = `CGATS.17\nILLUMINANT "D50"\nBEGIN_DATA_FORMAT\nSAMPLE_ID RGB_R\nEND_DATA_FORMAT\nBEGIN_DATA\n1 2\n2 3\nEND_DATA\n${file({ head: [] })}`;
    expect(apart(text)).toBe(0);
  });

  test("names that repeat or are missing are told apart by their place", () => {
    const text = file({
      fields: "SAMPLE_ID SAMPLE_NAME LAB_L LAB_A LAB_B",
      row: ({ lab }, i) =>
        `${id(i)} ${i < 3 ? '"grey"' : i === 5 ? '""' : `"p ${i}"`} ${lab.join(" ")}`,
    });
    const names = cardFromReferenceText(text, "card.txt").patches.map(({ name }) => name);
    expect(names.slice(0, 6)).toEqual(["grey 1", "grey 2", "grey 3", "p 3", "p 4", "6"]);
    expect(new Set(names).size).toBe(24);
  });

  test("ids that repeat: the order of the file, and it is said", () => {
    const text = file({ row: ({ lab }) => `A1 ${lab.join(" ")}` });
    expect(apart(text)).toBe(0);
    expect(notesOf(text).join()).toContain("order of the file");
  });

  test("greys are told by their chroma", () => {
    const card = cardFromReferenceText(file(), "card.txt");
    expect(card.patches.map(({ neutral }) => neutral)).toEqual(
      patches.map(({ neutral }) => neutral),
    );
  });

  test("30 sets are the strip, and a row length tells other layouts", () => {
    const rows = (n: number): string => Array.from({ length: n }, (_, i) => `${i + 1} ${20 + i} ${(7 * i) % 40} ${(11 * i) % 30}`).join("\n"); // prettier-ignore
    const head = 'CGATS.17\nILLUMINANT "D50"\n';
    const table = (n: number): string => `BEGIN_DATA_FORMAT\nSAMPLE_ID LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nNUMBER_OF_SETS ${n}\nBEGIN_DATA\n${rows(n)}\nEND_DATA`; // prettier-ignore
    const strip = cardFromReferenceText(`${head}${table(30)}`, "strip.txt");
    expect([strip.rows, strip.columns, strip.pitchMm]).toEqual([
      2,
      15,
      cardNamed("strip")?.pitchMm,
    ]);
    const own = cardFromReferenceText(`${head}LGOROWLENGTH 10\n${table(40)}`, "own.txt");
    expect([own.rows, own.columns, own.pitchMm]).toEqual([4, 10, null]);
  });
});

describe("illuminant and observer", () => {
  const head = (...lines: string[]): string => file({ head: ["CGATS.17", ...lines] });

  test("hidden in free text", () => {
    const text = head('MEASUREMENT_SOURCE "Illumination=D50\tObserverAngle=2°\tWhiteBase=Abs"');
    expect(notesOf(text)).toEqual([]);
    expect(apart(text)).toBe(0);
  });

  test("absent: D50 is assumed, and it is said", () => {
    expect(notesOf(head())).toEqual(["No illuminant is named: D50 assumed."]);
  });

  test.each(['ILLUMINATION_NAME "D65"', 'MEASUREMENT_SOURCE "Illumination=D65 ObserverAngle=2"'])(
    "%s: taken to D50",
    (line) => {
      const toD65 = adaptationMatrix(WHITE_D50, WHITE_D65);
      const underD65 = ({ lab }: { lab: Triple }): Triple =>
        xyzToLab(multiply3Vector(toD65, labToXyzD50(lab)), WHITE_D65);
      const row = (patch: { lab: Triple }, i: number): string => `${id(i)} ${underD65(patch).join(" ")}`; // prettier-ignore
      const text = file({ head: ["CGATS.17", line], row });
      // The values are really different ones ...
      expect(Math.abs(underD65(patches[0])[1] - patches[0].lab[1])).toBeGreaterThan(0.5);
      // ... and come back by the inverse of the map, to rounding.
      expect(apart(text)).toBeLessThan(1e-9);
      expect(notesOf(text).join()).toContain("D65");
    },
  );

  test("another illuminant, or the 10 degree observer, is refused", () => {
    expect(refusal(head('ILLUMINATION_NAME "F11"')).message).toContain("F11");
    expect(refusal(head('ILLUMINATION_NAME "D50"', 'OBSERVER_ANGLE "10"')).message).toContain("10 degree"); // prettier-ignore
    expect(refusal(head('MEASUREMENT_SOURCE "Illumination=D50 ObserverAngle=10°"')).message).toContain("10 degree"); // prettier-ignore
  });

  test("Lab and XYZ that contradict each other are said", () => {
    const text = file({
      fields: "SAMPLE_ID XYZ_X XYZ_Y XYZ_Z LAB_L LAB_A LAB_B",
      row: ({ lab }, i) => `${id(i)} ${labToXyz(lab, WHITE_D65).map((v) => v * 100).join(" ")} ${lab.join(" ")}`, // prettier-ignore
    });
    expect(notesOf(text).join()).toContain("differ by");
  });
});

describe("refused, with what is wrong and where", () => {
  test.each<[string, string, string]>([
    ["22 rows", file().replace(/^C2.*\n/m, "").replace(/^D6.*\n/m, ""), "missing are C2, D6"], // prettier-ignore
    ["a value missing in line 12", file().replace(/^(B2 \S+ \S+) \S+/m, "$1"), "line 16: 3 values"],
    ["a value too many", file().replace(/^(A1 .*)$/m, "$1 5"), "line 9: 5 values"],
    ["a word where a number belongs", file().replace(/^(A3) \S+/m, "$1 n/a"), '"n/a" where a number belongs (line 11)'], // prettier-ignore
    ["thousands separators", file().replace(/^(A3) \S+/m, "$1 1,234.5"), "1,234.5"],
    ["no Lab colour", file().replace(/^(A3) \S+/m, "$1 4932"), "no Lab colour (line 11)"],
    ["no colour columns", file({ fields: "SAMPLE_ID RGB_R RGB_G RGB_B" }), "neither LAB_L"],
    ["data without a format", "CGATS.17\nBEGIN_DATA\n1 2 3\nEND_DATA\n", "line 2: data before any data format"], // prettier-ignore
    ["nothing", "", "no data"],
    ["prose", "Dear reader,\nno table here.\n", "no data"],
  ])("%s", (_, text, words) => {
    const error = refusal(text);
    expect(error.code).toBe("unreadable");
    expect(error.input).toBe("card.txt");
    expect(error.message).toContain(words);
    expect(error.remedy.length).toBeGreaterThan(20);
  });

  test("any cut of a good file is read in full or refused, never crashes", () => {
    const text = file({ end: "\r\n" });
    for (let length = 0; length < text.length; length += 7) {
      let card;
      try {
        card = cardFromReferenceText(text.slice(0, length), "card.txt");
      } catch (error) {
        expect(error).toBeInstanceOf(LastrinseError);
        continue;
      }
      // Only the last value of the last row can be cut and still be a number.
      expect(card.patches.slice(0, 23).map(({ lab }) => lab)).toEqual(patches.slice(0, 23).map(({ lab }) => lab)); // prettier-ignore
    }
  });
});

const available = sharedDataAvailable("colour/cgats-made-it8-style.txt");
describe.skipIf(!available)(`sample files${available ? "" : " (skipped: no shared data)"}`, () => {
  const sample = (name: string, encoding: "utf8" | "latin1" = "utf8"): string =>
    readFileSync(sharedData(`colour/${name}`), encoding);

  test("IT8.7 style, Latin-1, trailing tabs: 24 patches equal the chart's", () => {
    const text = sample("cgats-made-it8-style.txt", "latin1");
    expect(apart(text)).toBeLessThan(0.01);
    expect(notesOf(text)).toEqual([]);
  });

  test("decimal comma, format over two lines, no final newline: 24 patches equal the chart's", () => {
    const text = sample("cgats-made-decimal-comma.txt");
    expect(apart(text)).toBeLessThan(0.01);
    const { patches: read } = cardFromReferenceText(text, "card.txt");
    expect(read.map(({ name }) => name)).toEqual(patches.map(({ name }) => name));
  });

  test("found in the wild: doubled quotes, # in quotes, two tables, a broken end mark", () => {
    const { tables, notes } = readReferenceText(sample("cgats-wild-quoting-and-two-tables.txt"));
    expect(tables.map(({ rows }) => rows.length)).toEqual([22, 21]);
    expect(tables[1].fields).toEqual(["SAMPLEID", "SAMPLELOC", "XYZX"]);
    expect(tables[0].rows[6].cells).toEqual(["7", "A#5", "1.2346e-03"]);
    expect(tables[0].keywords.get("TESTKEYWORD2")).toEqual(['try this" out "" huh !']);
    expect(notes).toContain("Counted 21 rows, the head says 22.");
    expect(notes.join()).toContain("no end mark");
  });
});
