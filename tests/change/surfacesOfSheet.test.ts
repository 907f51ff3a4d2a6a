import { describe, expect, test } from "vitest";
import { splitPaperAndInk } from "../../src/change/splitPaperAndInk.ts";
import { MIXTURE } from "../../src/change/surfaceDoubt.ts";
import { surfacesOfSheet } from "../../src/change/surfacesOfSheet.ts";
import { inkVerdict } from "../../src/change/verdicts.ts";
import { ciede2000 } from "../../src/colour/ciede2000.ts";
import { PRESSES, pressSheet, type PressSheetOptions } from "../support/pressSheet.ts";

/** Standard deviation 0.1 in each of L*, a*, b* of a difference: a good scanner. */
const SMALL = [0.01, 0, 0, 0, 0.01, 0, 0, 0, 0.01] as const;
const NOWHERE_ELSE = { offset: [0, 0, 0], covariance: [0, 0, 0, 0, 0, 0, 0, 0, 0] } as const;
/** What the card leaves of a good scan. */
const FLOOR = 0.25;

function judge(options: PressSheetOptions, doubtful = true) {
  const [paper, ...inks] = pressSheet(options).map((colour) => ({ ...colour, covariance: SMALL }));
  const surface = doubtful
    ? surfacesOfSheet(
        inks.map((ink) => ({ ink, under: NOWHERE_ELSE })),
        paper,
      )
    : MIXTURE;
  return inks.map((ink) => {
    const parts = splitPaperAndInk(ink, paper, NOWHERE_ELSE, surface);
    const verdict = inkVerdict(ciede2000(ink.labBefore, ink.labAfter), FLOOR, parts);
    return { ...ink, parts, verdict, surface };
  });
}

const STOCKS = Object.keys(PRESSES) as (keyof typeof PRESSES)[];
const GLOSSES = [0, 0.004, 0.008];

describe("clean sheets of every stock, with and without gloss lost", () => {
  const pairs = STOCKS.flatMap((press, i) =>
    GLOSSES.map((gloss, j) => ({ press, gloss, seed: 10 * i + j + 1, tints: true })),
  );

  test("no ink is called lost that lost nothing", () => {
    for (const pair of pairs)
      for (const { id, verdict, parts } of judge(pair))
        expect(verdict, `${id} on ${pair.press}, gloss ${pair.gloss}: ${parts.low}`).not.toBe(
          "ink-lost",
        );
  });

  test("which the model of a mixture alone would do", () => {
    const accused = pairs
      .flatMap((pair) => judge(pair, false))
      .filter((r) => r.verdict === "ink-lost");
    expect(accused.length).toBeGreaterThan(20);
  });
});

describe("an ink that lost 30 %", () => {
  test.each(["yellow", "red", "blue"])(
    "%s is found on nearly every stock, and no other is accused",
    (ink) => {
      let found = 0;
      STOCKS.forEach((press, i) => {
        for (const gloss of [0, 0.008]) {
          const rows = judge({ press, gloss, seed: 200 + i, loss: { [ink]: 0.3 } });
          for (const { id, lost, verdict } of rows)
            if (!lost) expect(verdict, `${id} on ${press}, gloss ${gloss}`).not.toBe("ink-lost");
          if (rows.find(({ id }) => id === ink)?.verdict === "ink-lost") found++;
        }
      });
      // Yellow behind lost gloss on newsprint is the one that three bands can hardly tell.
      expect(found).toBeGreaterThanOrEqual(2 * STOCKS.length - 2);
    },
  );

  test("a black that did not lighten speaks against film and lost gloss", () => {
    const mean = (press: keyof typeof PRESSES, of: "film" | "gloss"): number => {
      const [{ surface }] = judge({ press, seed: 5, loss: { red: 0.3 } });
      return surface.possible.reduce((sum, s) => sum + s.weight * s[of], 0);
    };
    expect(mean("newsprint", "film")).toBeLessThan(0.25);
    expect(mean("newsprint", "gloss")).toBeLessThan(0.002);
    expect(mean("coatedGrade1", "film")).toBeGreaterThan(0.6);
  });
});

test("a film share known from elsewhere narrows the interval and never moves it beyond what doubt allowed", () => {
  const [paper, ...inks] = pressSheet({ press: "coatedGrade1", seed: 9, loss: { red: 0.3 } }).map(
    (colour) => ({ ...colour, covariance: SMALL }),
  );
  const rows = inks.map((ink) => ({ ink, under: NOWHERE_ELSE }));
  const red = inks.find(({ id }) => id === "red")!;
  const wide = splitPaperAndInk(red, paper, NOWHERE_ELSE, surfacesOfSheet(rows, paper));
  const narrow = splitPaperAndInk(
    red,
    paper,
    NOWHERE_ELSE,
    surfacesOfSheet(rows, paper, { film: [0.9, 1] }),
  );
  // Other steps of film, other noise of the grid: a tenth.
  expect(narrow.low).toBeGreaterThanOrEqual(wide.low - 0.1);
  expect(narrow.high - narrow.low).toBeLessThan(wide.high - wide.low);
});
