import { expect, test } from "vitest";
import { checkText } from "../../cli/checkText.ts";
import { checkPrediction, predictionWords } from "../../src/record/checkPrediction.ts";
import { compareResult } from "../support/treatmentView.ts";

const LIMIT = 2;

/** What the washed cover shows of red, and what the baths had foretold. */
function check(
  [low, high]: readonly [number, number],
  measured: readonly [number, number, number] | null,
) {
  const base = compareResult();
  const [inkPartLow, inkPartDeltaE00, inkPartHigh] = measured ?? [null, null, null];
  const inks = base.inks.map((ink) =>
    ink.id === "red" ? { ...ink, inkPartLow, inkPartDeltaE00, inkPartHigh } : ink,
  );
  const fade = {
    red: {
      low,
      mid: (low + high) / 2,
      high,
      modelDeltaE00: (low + high) / 2,
      inkClass: "red" as const,
      stainedOnly: null,
    },
    blue: null,
  };
  return checkPrediction(fade, { ...base, inks }, "2026-03-01", LIMIT);
}

test.each([
  [
    "narrow, and it covers",
    [0.6, 2],
    [0.9, 1.4, 1.9],
    "agrees",
    true,
    "agrees with the prediction",
  ],
  [
    "it covers, as wide as the limit",
    [0, 2],
    [0.9, 1.4, 1.9],
    "too-wide-to-test",
    null,
    "too wide",
  ],
  [
    "from nothing to 4 covers anything",
    [0, 3.94],
    [0.64, 1.27, 1.77],
    "too-wide-to-test",
    null,
    "too wide",
  ],
  [
    "the ranges meet, the figure lies outside",
    [0, 0.19],
    [0, 0.75, 1.23],
    "too-wide-to-test",
    null,
    "too wide",
  ],
  ["more was lost", [0.1, 0.5], [0.9, 1.4, 1.9], "contradicted", false, "more was lost"],
  ["less was lost", [2.5, 4], [0.9, 1.4, 1.9], "contradicted", false, "less was lost"],
  [
    "a wide range that misses is no less wrong",
    [2.5, 9],
    [0.9, 1.4, 1.9],
    "contradicted",
    false,
    "less",
  ],
  ["nothing measured", [0.6, 2], null, null, null, "cannot be compared"],
] as const)("%s", (_, predicted, measured, verdict, agrees, words) => {
  const result = check(predicted, measured);
  const red = result.inks.find(({ id }) => id === "red");
  if (red === undefined) throw new Error("Expected red to be checked.");
  expect(red).toMatchObject({ verdict, agrees });
  expect(predictionWords(red)).toContain(words);
  expect(result.agreeing).toBe(verdict === "agrees" ? 1 : 0);
  expect(result.compared).toBe(verdict === null ? 0 : 1);
  // What was not predicted is not counted, neither for nor against.
  expect(result.inks.find(({ id }) => id === "blue")?.verdict).toBeNull();
});

test("in words: measured first, the upper bound of the prediction first, no middle", () => {
  const text = checkText(check([0, 3.94], [0.64, 1.27, 1.77]));
  expect(text).toContain(
    "red: measured 1.27 (0.64 to 1.77), predicted up to 3.94 (from 0.00): ranges too wide to test the prediction",
  );
  expect(text).toContain("0 of 1 inks agree; for 1 the ranges are too wide to tell.");
  expect(text).not.toContain("1.97");
});
