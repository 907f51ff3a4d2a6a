import { expect, test } from "vitest";
import { majorityFilter } from "../../src/grid/majorityFilter.ts";

function filtered(rows: readonly string[]): string[] {
  const width = rows[0].length;
  const out = majorityFilter(Uint8Array.from(rows.join(""), Number), width, rows.length);
  return rows.map((_, y) => Array.from(out.subarray(y * width, (y + 1) * width)).join(""));
}

test("single cells vanish, also at the frame", () => {
  expect(filtered(["2111", "1121", "1111"])).toEqual(["1111", "1111", "1111"]);
});

test("a tie keeps the cell's own label", () => {
  // In the top row each middle cell sees three of either label.
  expect(filtered(["1122", "1122"])).toEqual(["1122", "1122"]);
});

test("label 0 neither votes nor changes", () => {
  expect(filtered(["0000", "0120", "0000"])).toEqual(["0000", "0120", "0000"]);
});
