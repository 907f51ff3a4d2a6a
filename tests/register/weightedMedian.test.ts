import { expect, test } from "vitest";
import { weightedMedian } from "../../src/register/weightedMedian.ts";

test("half of the weight lies on either side", () => {
  expect(weightedMedian([3, 1, 2], [1, 1, 1])).toBe(2);
  expect(weightedMedian([3, 1, 2], [5, 1, 1])).toBe(3);
  expect(weightedMedian([3, 1, 2], [0, 1, 0])).toBe(1);
  expect(weightedMedian([], [])).toBeNaN();
  expect(weightedMedian([1], [0])).toBeNaN();
});
