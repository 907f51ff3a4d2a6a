import { describe, expect, test } from "vitest";
import { findBleeds } from "../../src/change/findBleeds.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import {
  CELL_MM,
  type ChangeOptions,
  changedSheet,
  distanceFrom,
  type Extra,
  PAPER_LAB,
  PRINT,
} from "../support/changedSheet.ts";

const INKS = PRINT.map(({ id, label, lab }) => ({ id, label, labBefore: lab }));

function bleedsOf(options: ChangeOptions) {
  const { view, labels, usable } = changedSheet(options);
  return findBleeds(view, labels, usable, INKS, PAPER_LAB);
}

/** So much of the way from paper to an ink's colour at its edge, falling to nothing at the reach, between two heights. */
function bleed(
  id: "red" | "light-blue" | "black",
  share: number,
  reachMm: number,
  [top, bottom]: readonly [number, number] = [0, 70],
): Extra {
  const { lab } = PRINT.find((print) => print.id === id)!;
  return (x, y): Triple => {
    const d = distanceFrom(id, x, y);
    const left = d === 0 || y < top || y > bottom ? 0 : share * Math.max(0, 1 - d / reachMm);
    return [0, 1, 2].map((c) => left * (lab[c] - PAPER_LAB[c])) as unknown as Triple;
  };
}

describe("bleeds past a printed edge", () => {
  describe.each([2, 4])("red, %d mm", (reachMm) => {
    test.each([1, 2])("found, placed and measured, draw %d", (seed) => {
      const bleeds = bleedsOf({ seed, after: bleed("red", 0.3, reachMm, [20, 40]) });
      // Left and right of the block.
      expect(bleeds.map(({ ink }) => ink)).toEqual(["red", "red"]);
      for (const { boxPixels, reachMm: measured } of bleeds) {
        const [left, top, width, height] = boxPixels.map((value) => (value * CELL_MM) / 2);
        const beside = left < 14 ? [14 - reachMm, 14] : [40, 40 + reachMm];
        expect(left).toBeGreaterThan(beside[0] - 1);
        expect(left + width).toBeLessThan(beside[1] + 1);
        expect(top).toBeGreaterThan(18.5);
        expect(top + height).toBeLessThan(41.5);
        expect(height).toBeGreaterThan(18);
        expect(Math.abs(measured - reachMm)).toBeLessThan(0.5 * reachMm);
      }
    });
  });

  test("all around its ink it is one bleed", () => {
    const bleeds = bleedsOf({ after: bleed("red", 0.3, 2.5) });
    expect(bleeds).toHaveLength(1);
    expect(bleeds[0].boxPixels[3] * (CELL_MM / 2)).toBeGreaterThan(42);
  });

  test("a pale ink's is told by its hue", () => {
    expect(bleedsOf({ after: bleed("light-blue", 0.5, 3) }).map(({ ink }) => ink)).toEqual([
      "light-blue",
    ]);
  });

  test.each([1, 2, 3, 4])("a clean pair, a little out of register, has none, draw %d", (seed) => {
    const slow: Extra = (x, y) => {
      const s = Math.sin(x / 11) * Math.cos(y / 13);
      return [-0.8 * s, 0.3 * s, s];
    };
    expect(bleedsOf({ seed, noise: 0.25, shiftMm: [0.2, -0.2], after: slow })).toEqual([]);
  });

  test.each<[string, Extra]>([
    ["a stain of soil at the edge", (x, y) => scaled(distanceFrom("red", x, y), [-5, 0.5, 4])],
    ["a cleaner place at the edge", (x, y) => scaled(distanceFrom("red", x, y), [3, -1, -4])],
    // As red as a bleed, but away from the print.
    ["a red spot", (x, y) => scaled(Math.hypot(x - 45, y - 6), [-5, 8, 1])],
    ["darkening around the black, which has no hue", bleed("black", 0.2, 2)],
  ])("%s is none", (_, after) => {
    expect(bleedsOf({ after })).toEqual([]);
  });

  test("without bare paper there is nothing to see", () => {
    const { view, labels, usable } = changedSheet();
    const noPaper = labels.map((label) => (label === 255 ? 1 : label));
    expect(findBleeds(view, noPaper, usable, INKS, PAPER_LAB)).toEqual([]);
  });
});

function scaled(distanceMm: number, by: Triple): Triple {
  const share = Math.max(0, 1 - distanceMm / 2.5);
  return [share * by[0], share * by[1], share * by[2]];
}
