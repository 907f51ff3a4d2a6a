import { expect, test } from "vitest";
import { adjustedRandIndex } from "./adjustedRandIndex.ts";

/** Two labellings with a given table of joint counts. */
function labellings(table: readonly (readonly number[])[]): [number[], number[]] {
  const reference: number[] = [];
  const sample: number[] = [];
  table.forEach((row, r) =>
    row.forEach((count, c) => {
      for (let n = 0; n < count; n++) {
        reference.push(r + 1);
        sample.push(c + 1);
      }
    }),
  );
  return [reference, sample];
}

test("the worked example of Yeung & Ruzzo (2001, supplement to Bioinformatics 17, 763): 0.313", () => {
  const [reference, sample] = labellings([
    [1, 1, 0],
    [1, 2, 1],
    [0, 0, 4],
  ]);
  expect(adjustedRandIndex(reference, sample)).toBeCloseTo(0.313, 3);
});

test("1 for the same partition under other names, and only cells in use count", () => {
  expect(adjustedRandIndex([1, 1, 2, 2, 3], [7, 7, 9, 9, 4])).toBe(1);
  expect(adjustedRandIndex([1, 1, 2, 2, 3, 3], [7, 7, 9, 9, 4, 7], [1, 1, 1, 1, 1, 0])).toBe(1);
});
