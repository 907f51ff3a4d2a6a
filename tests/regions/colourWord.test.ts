import { expect, test } from "vitest";
import type { Triple } from "../../src/numeric/triple.ts";
import { colourWord } from "../../src/regions/colourWord.ts";
import { relativeToPaper } from "../../src/regions/relativeToPaper.ts";

/** Newsprint aims of ISO 12647-3 (from memory), on their own paper. */
test.each([
  [[57, -23, -27], "blue"],
  [[54, 44, -1], "red"],
  [[78, -3, 58], "yellow"],
  [[36, 1, 4], "black"],
] as [Triple, string][])("newsprint aim %j is %s", (lab, word) => {
  expect(colourWord(relativeToPaper(lab, [82, 0, 3]))).toBe(word);
});

/** Colours as pulp covers show them, relative to their paper: common usage, no source. */
test.each([
  [[50, 62, 30], "red"],
  [[50, 62, 0], "red"],
  [[50, 62, -6], "red"], // hue 354: past the turn of the circle
  [[55, 50, 40], "red"],
  [[85, 18, 0], "pink"],
  [[85, 18, -2], "pink"],
  [[84, 24, 20], "light-red"],
  [[74, 34, 52], "orange"],
  [[92, 10, 22], "light-brown"],
  [[90, 12, 30], "light-orange"],
  [[92, -4, 70], "yellow"],
  [[97, -4, 22], "light-yellow"],
  [[55, -38, 22], "green"],
  [[72, -6, 26], "green"], // olive: yellow printed over with blue
  [[85, -18, 10], "light-green"],
  [[50, -12, -38], "blue"],
  [[45, 10, -45], "blue"],
  [[91, -4, -13], "light-blue"],
  [[44, 30, -32], "violet"],
  [[85, 10, -12], "light-violet"],
  [[40, 18, 22], "brown"],
  [[60, 10, 18], "brown"],
  [[58, 15, 4], "brown"],
  [[28, 1, 1], "black"],
  [[41, -1, -7], "black"],
  [[65, 1, -2], "grey"],
  [[66, -3, -9], "grey"],
  [[90, -3, -9], "light-blue"],
  [[90, 0, 1], "light-grey"],
] as [Triple, string][])("%j is %s", (lab, word) => {
  expect(colourWord(lab)).toBe(word);
});

test("a grey tint on brown paper is grey, though its own colour is brown", () => {
  const paper: Triple = [76, 4, 20];
  const tint: Triple = [58, 3, 15];
  expect(colourWord(tint)).toBe("brown");
  expect(colourWord(relativeToPaper(tint, paper))).toBe("grey");
  expect(relativeToPaper(paper, paper).map((value) => Math.round(1e6 * value) / 1e6 + 0)).toEqual([
    100, 0, 0,
  ]);
});
