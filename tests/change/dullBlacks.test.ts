import { describe, expect, test } from "vitest";
import { dullBlacks } from "../../src/change/dullBlacks.ts";
import { pairScenes } from "../../sample-images/scene/pairScenes.ts";
import type { PairOptions } from "../../sample-images/scene/pairOptions.ts";

const KEPT = { yellow: 0, red: 0, blue: 0, black: 0 };

/** Truth of the black of a small cover. */
function blackOf(options: Partial<PairOptions>) {
  const { inks, paper } = pairScenes({ widthMm: 90, heightMm: 130, ...options }).truth;
  const black = inks.find(({ id }) => id === "black")!;
  return {
    rise: black.labAfter[0] - black.labUntouched[0],
    measured: (inkPartLow: number): number | null =>
      dullBlacks([{ ...black, inkPartLow }], paper.labBefore, paper.labAfter),
  };
}

describe("dull blacks", () => {
  test.each([0.03, 0.12])("a haze over %d of the black is told as its rise of L*", (dullBlack) => {
    const { rise, measured } = blackOf({ inkLoss: KEPT, dullBlack });
    // The expectation of an untouched black misses by a few tenths of L*.
    expect(Math.abs(measured(1)! - rise)).toBeLessThan(0.5);
  });

  test.each([0.15, 0.4])("black lost by %d lets paper show, no haze", (loss) => {
    expect(blackOf({ inkLoss: { ...KEPT, black: loss } }).measured(1)).toBe(0);
  });

  test("what is not shown beyond doubt is none", () => {
    expect(blackOf({ inkLoss: KEPT, dullBlack: 0.12 }).measured(0)).toBe(0);
  });

  test("a second, clean black halves the mean; no black gives no figure", () => {
    const lab = [30, 1, 5] as const;
    const paper = [78, 4, 19] as const;
    const hazed = { areaCm2: 5, labBefore: lab, labAfter: [36, 0.7, 4], inkPartLow: 3 } as const;
    const clean = { areaCm2: 5, labBefore: lab, labAfter: lab, inkPartLow: 0 } as const;
    expect(dullBlacks([hazed], paper, paper)).toBeCloseTo(6, 6);
    expect(dullBlacks([hazed, clean], paper, paper)).toBeCloseTo(3, 6);
    expect(dullBlacks([], paper, paper)).toBeNull();
  });
});
