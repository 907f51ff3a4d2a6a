import fc from "fast-check";
import { expect, test } from "vitest";
import { jsonPathLine } from "../../src/json/jsonPathLine.ts";

const TEXT = `{
  "paper": { "lab": [78, 3, 19] },
  "inks": [
    { "id": "r,e]d:",
      "lab": [1,
        2, 3] },
    {
      "id": "\\"inks\\": [",
      "blot": "fast" }
  ],
  "paper": 3
}`;

test.each([
  [[], 1],
  [["inks"], 3],
  [["inks", 0], 4],
  [["inks", 0, "lab", 1], 6],
  [["inks", 1, "blot"], 9],
  // The later of two entries of one name, as JSON.parse takes it.
  [["paper"], 11],
  // What is missing: the object or list that should hold it.
  [["inks", 1, "areaCm2"], 7],
  [["inks", 7, "id"], 3],
  [["baths"], 1],
] as const)("%j", (path, line) => {
  expect(jsonPathLine(TEXT, path)).toBe(line);
});

test("any entry of any JSON stands where its own mark is written", () => {
  const MARK = "0123456789 the mark";
  fc.assert(
    fc.property(
      fc.jsonValue({ maxDepth: 4 }),
      fc.array(fc.string(), { maxLength: 4 }),
      (other, keys) => {
        // The mark lies under the keys, other values before and after it at every level.
        const value = keys.reduceRight<unknown>(
          (inner, key) => [
            other,
            Object.fromEntries([
              [`a${key}`, other],
              [`k${key}`, inner],
            ]),
            other,
          ],
          MARK,
        );
        const path = keys.flatMap((key) => [1, `k${key}`]);
        const text = JSON.stringify(value, null, 1);
        const line = text.slice(0, text.indexOf(MARK)).split("\n").length;
        expect(jsonPathLine(text, path)).toBe(line);
      },
    ),
    { seed: 17, numRuns: 300 },
  );
});
