import { describe, expect, test } from "vitest";
import type { SurveyedInk } from "../../src/compare/surveyScan.ts";
import { partsOf, printedInks } from "../../src/record/printedInks.ts";

const colour = (id: string, more: Partial<SurveyedInk> = {}): SurveyedInk => ({
  id,
  kind: "ink",
  lab: [50, 40, 20],
  areaCm2: 10,
  ...more,
});
const PAPER = [80, 0, 15] as const;

describe("what a colour is printed with", () => {
  const words = new Set(["red", "yellow", "blue"]);
  test.each<[string, SurveyedInk["kind"], string[]]>([
    ["red", "ink", ["red"]],
    ["light-red", "ink", ["red"]],
    ["red-2", "ink", ["red"]],
    ["orange", "overprint", ["red", "yellow"]],
    ["brown", "overprint", ["red", "yellow", "blue"]],
    // An ink of its own colour is no mixture.
    ["green", "ink", ["green"]],
    // Black is not on this cover, so grey is counted to nothing else.
    ["light-grey", "overprint", ["light-grey"]],
  ])("%s (%s)", (id, kind, parts) => {
    expect(partsOf({ id, kind }, words)).toEqual(parts);
  });
});

describe("the inks of a cover", () => {
  test("an overprint counts whole to each of its inks, a colour without a Lab to none", () => {
    const inks = printedInks(
      [
        colour("red"),
        colour("yellow", { lab: [75, 5, 70] }),
        colour("orange", { kind: "overprint", areaCm2: 4 }),
        colour("blue", { lab: null }),
      ],
      PAPER,
    );
    expect(inks.map(({ id, areaCm2 }) => [id, areaCm2])).toEqual([
      ["red", 14],
      ["yellow", 14],
    ]);
  });

  test("a tint counts by its density against the solid: between nothing and its whole area", () => {
    const area = (L: number) =>
      printedInks([colour("red"), colour("light-red", { lab: [L, 10, 16], areaCm2: 10 })], PAPER)[0]
        .areaCm2;
    expect(area(79)).toBeGreaterThan(10);
    expect(area(70)).toBeGreaterThan(area(79));
    expect(area(70)).toBeLessThan(20);
    // Darker than the solid itself: no more than its area.
    expect(area(30)).toBe(20);
  });

  test("the same ink on two sides is one ink with both areas", () => {
    expect(printedInks([colour("red"), colour("red", { areaCm2: 5 })], PAPER)).toMatchObject([
      { id: "red", areaCm2: 15 },
    ]);
  });
});
