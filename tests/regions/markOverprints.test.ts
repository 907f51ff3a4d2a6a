import { describe, expect, test } from "vitest";
import { srgbToLabD50 } from "../support/srgbToLabD50.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { type PrintedColour, markOverprints } from "../../src/regions/markOverprints.ts";
import { colourWord } from "../../src/regions/colourWord.ts";

/** White paper: a screen's linear light is then the product of the inks' own. */
const PAPER = srgbToLabD50([1, 1, 1]);

/** Linear light that each ink lets pass. */
const YELLOW: Triple = [0.95, 0.85, 0.1];
const RED: Triple = [0.75, 0.08, 0.12];
const BLUE: Triple = [0.08, 0.2, 0.6];

/** Ink of that coverage over ink of another (Murray & Davies, Demichel), as the tool's Lab. */
function printed(...inks: readonly (readonly [Triple, number])[]): PrintedColour {
  const encode = (x: number): number =>
    x <= 0.0031308 ? 12.92 * x : 1.055 * x ** (1 / 2.4) - 0.055;
  const light = [0, 1, 2].map((c) =>
    inks.reduce((product, [ink, coverage]) => product * (1 - coverage + coverage * ink[c]), 1),
  );
  const lab = srgbToLabD50([encode(light[0]), encode(light[1]), encode(light[2])]);
  return { lab, word: colourWord(lab) };
}

describe("overprints among the colours of a print", () => {
  const three = [printed([YELLOW, 1]), printed([RED, 1]), printed([BLUE, 1])];

  test("three inks and their three overprints", () => {
    const over = [
      printed([YELLOW, 1], [RED, 1]),
      printed([YELLOW, 1], [BLUE, 1]),
      printed([RED, 1], [BLUE, 1]),
    ];
    expect(markOverprints([...three, ...over], PAPER)).toEqual([
      false,
      false,
      false,
      true,
      true,
      true,
    ]);
  });

  test("48 colours, more than can be listed in sets of five: the three inks and their tints are none, deep overprints are", () => {
    const coverages = [0.35, 0.5, 0.65, 0.8, 1];
    const tints = [YELLOW, RED, BLUE].flatMap((ink) =>
      coverages.slice(0, 4).map((coverage) => printed([ink, coverage])),
    );
    const pairs = [
      [YELLOW, RED],
      [YELLOW, BLUE],
      [RED, BLUE],
    ].flatMap(([one, other]) =>
      coverages
        .slice(2)
        .flatMap((c) => coverages.slice(1).map((d) => printed([one, c], [other, d]))),
    );
    const colours = [...three, ...tints, ...pairs.slice(0, 33)];
    expect(colours).toHaveLength(48);
    const marked = markOverprints(colours, PAPER);
    expect(marked.slice(0, 3)).toEqual([false, false, false]);
    // Yellow under red, both at full strength.
    expect(marked[15 + 11]).toBe(true);
    expect(marked.slice(15).filter(Boolean).length).toBeGreaterThan(20);
  });
});
