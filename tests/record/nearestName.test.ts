import { expect, test } from "vitest";
import { nearestName } from "../../src/record/nearestName.ts";

const INKS = ["red", "blue", "yellow", "black", "light-red"];

test.each([
  ["rde", "red"],
  ["Red", "red"],
  ["blu", "blue"],
  ["bleu", "blue"],
  ["yelow", "yellow"],
  ["yeloww", "yellow"],
  ["blakc", "black"],
  ["light red", "light-red"],
  ["green", null],
  ["violet", null],
  ["", null],
])('"%s" is nearest to %s', (received, nearest) => {
  expect(nearestName(received, INKS)).toBe(nearest);
});

test("the nearer of two, and the first of two as near", () => {
  expect(nearestName("blackk", ["blacken", "black"])).toBe("black");
  expect(nearestName("red-4", ["red-2", "red-3"])).toBe("red-2");
});
