import { existsSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";

const table = readFileSync(new URL("README.md", import.meta.url), "utf8");
const rows = [...table.matchAll(/^\| +(\d+) +\|(.*)\|$/gm)].map(([, number, cells]) => ({
  number: Number(number),
  file: cells.split("|").at(-1)?.trim() ?? "",
}));

test("the table of faults counts its rows, and every row's test file is there", () => {
  expect(rows.map(({ number }) => number)).toEqual(rows.map((_, i) => i + 1));
  expect(table).toContain(`${String(rows.length)} faults, each with a test`);
  for (const { file } of rows)
    expect(existsSync(new URL(`../${file}.test.ts`, import.meta.url)), file).toBe(true);
});
