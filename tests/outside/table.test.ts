import { existsSync, readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";

const HERE = new URL("./", import.meta.url);
const text = readFileSync(new URL("README.md", HERE), "utf8");
const cellsOf = (line: string): string[] =>
  line
    .split("|")
    .slice(1, -1)
    .map((cell) => cell.trim());

/** What stands for a source where there is none to name. */
const MARKS = ["from memory", "common practice, no source", "worked elsewhere, no source"];

const [, checkText = "", sourceText = ""] = /^## Checks$(.*)^## Sources$(.*?)^## /ms.exec(text) ?? []; // prettier-ignore
const rows = checkText
  .split("\n")
  .filter((line) => /^\| *\d+ *\|/.test(line))
  .map(cellsOf)
  .map(([number, what, source, tolerance, file, result]) => ({
    number: Number(number),
    what,
    sources: source.split(";").map((one) => one.trim()),
    tolerance,
    files: file.split(",").map((one) => one.trim()),
    result,
  }));
const sources = sourceText
  .split("\n")
  .filter((line) => line.startsWith("|"))
  .slice(2)
  .map((line) => cellsOf(line)[0]);

test("rows are numbered, and none lacks a source or a mark, a tolerance, a file or a result", () => {
  expect(rows.map(({ number }) => number)).toEqual(rows.map((_, i) => i + 1));
  expect(rows.length).toBeGreaterThan(50);
  for (const row of rows) {
    for (const cell of [row.what, row.tolerance, row.result]) expect(cell, `row ${String(row.number)}`).not.toBe(""); // prettier-ignore
    for (const source of row.sources)
      expect([...sources, ...MARKS], `row ${String(row.number)}`).toContain(source);
  }
});

test("every source is named once and used", () => {
  expect(new Set(sources).size).toBe(sources.length);
  const used = new Set(rows.flatMap((row) => row.sources));
  for (const source of sources) expect(used, source).toContain(source);
});

test("every file named is there, and every file of checks here is named", () => {
  const named = new Set(rows.flatMap(({ files }) => files));
  for (const file of named)
    expect(existsSync(new URL(`../${file}.test.ts`, HERE)), file).toBe(true);
  for (const name of readdirSync(HERE))
    if (name.endsWith(".test.ts") && name !== "table.test.ts")
      expect(named).toContain(`outside/${name.replace(".test.ts", "")}`);
});

test("the counts at the head are those of the rows", () => {
  const count = (holds: (row: (typeof rows)[number]) => boolean): number =>
    rows.filter(holds).length;
  const marked = (mark: string): number => count((row) => row.sources.includes(mark));
  const head = [
    ["checks", rows.length],
    ["passed", count(({ result }) => result.startsWith("passed"))],
    ["sources", sources.length],
    ...MARKS.map((mark) => [mark, marked(mark)] as const),
  ] as const;
  for (const [name, number] of head)
    expect(text).toMatch(new RegExp(`^\\| *${name} *\\| *${String(number)} *\\|$`, "m"));
});
