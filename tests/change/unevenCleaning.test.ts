import { describe, expect, test } from "vitest";
import { differenceCoordinates } from "../../src/calibrate/differenceCoordinates.ts";
import { unevenCleaning } from "../../src/change/unevenCleaning.ts";
import { multiply3Vector } from "../../src/numeric/matrix3.ts";
import { type ChangeOptions, changedSheet, PAPER_LAB } from "../support/changedSheet.ts";

const FLOOR = 0.3;

function unevennessOf(options: ChangeOptions, keep: (i: number) => boolean = () => true) {
  const { view, cores } = changedSheet(options);
  const cells = Int32Array.from([...cores.keys()].filter((i) => cores[i] === 255 && keep(i)));
  return unevenCleaning(view, cells, FLOOR);
}

describe("uneven cleaning", () => {
  test.each([1, 2, 3])("even paper has none, draw %d", (seed) => {
    expect(unevennessOf({ seed, noise: 0.3 })).toBeLessThan(0.1);
  });

  test("waves of cleaning of 2 dL*, -2 db* are told as their standard deviation in dE00", () => {
    const change = [-2, 0, 2] as const;
    const truth = Math.hypot(...multiply3Vector(differenceCoordinates(PAPER_LAB), change));
    const measured = unevennessOf({
      after: (x) => {
        const s = Math.sin((2 * Math.PI * x) / 45);
        return [s * change[0], 0, s * change[2]];
      },
    });
    // A sine of height 1 has its tenths at +-0.95: 1.9 / 2.563 of its height. Blocks of 6 mm flatten waves of 45 mm by 3 %; the floor
    // takes off 0.02.
    expect(Math.abs(measured! - 0.74 * truth)).toBeLessThan(0.1);
  });

  test("paper that was stained before isn't counted against the washing", () => {
    const stain = (x: number): readonly [number, number, number] =>
      x < 30 ? [-8, 2, 6] : [0, 0, 0];
    // The stain went: those places changed by far more than the others.
    expect(unevennessOf({ before: stain })).toBeLessThan(0.1);
  });

  test("too little paper gives no figure", () => {
    expect(unevennessOf({}, (i) => i % 450 < 40 && i < 450 * 60)).toBeNull();
  });
});
