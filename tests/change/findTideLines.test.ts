import { describe, expect, test } from "vitest";
import { findTideLines } from "../../src/change/findTideLines.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import {
  CELL_MM,
  type ChangeOptions,
  changedSheet,
  type Extra,
  PRINT,
  SHEET_WIDTH_MM,
} from "../support/changedSheet.ts";

function linesOf(options: ChangeOptions) {
  const { view, cores } = changedSheet(options);
  return findTideLines(view, cores);
}

/** Brown matter: L* falls by so much, b* rises by 0.8 of it. */
const brown = (strength: number): Triple => [-strength, 0.3 * strength, 0.8 * strength];

/** A wandering line across the lower margin and up the left one, as the low-pass of 1 mm shows one of this width. */
function tide(widthMm: number, strength: number, ends: readonly [number, number] = [0, 90]): Extra {
  const shownMm = Math.hypot(widthMm, 1);
  return (x, y) => {
    const d = y - (62 + 2 * Math.sin(x / 9));
    const share = x < ends[0] || x > ends[1] ? 0 : Math.exp(-4 * Math.LN2 * (d / shownMm) ** 2);
    return brown(strength * share);
  };
}

describe("tide lines", () => {
  describe.each([0.7, 1.5, 3])("%d mm wide", (widthMm) => {
    test.each([1, 2])("found, placed and measured, draw %d", (seed) => {
      const lines = linesOf({ seed, after: tide(widthMm, 2) });
      expect(lines).toHaveLength(1);
      const [line] = lines;
      // Full pixels are half a cell. The line runs from side to side, 60 to 64 mm down.
      const mm = line.boxPixels.map((value) => (value * CELL_MM) / 2);
      expect(mm[0]).toBeLessThan(6);
      expect(mm[0] + mm[2]).toBeGreaterThan(SHEET_WIDTH_MM - 6);
      expect(mm[1]).toBeGreaterThan(58.5);
      expect(mm[1] + mm[3]).toBeLessThan(65.5);
      expect(Math.abs(line.widthMm - widthMm)).toBeLessThan(0.5 * widthMm);
      // Its crest, less what a line of 3 mm leaves beside it.
      expect(line.deltaB).toBeGreaterThan(1.1);
      expect(line.deltaB).toBeLessThan(1.9);
      expect(line.deltaL).toBeLessThan(-1.4);
    });
  });

  test("a line over print is one line, if the ink hides part of it", () => {
    const lines = linesOf({
      after: (x, y) => {
        const d = y - 52;
        const onBlack = PRINT[2].box[0] < x && x < PRINT[2].box[2] && 48 < y && y < 56;
        return brown(onBlack ? 0 : 2 * Math.exp(-2 * d * d));
      },
    });
    // 26 mm of black are more than a gap may be; what lies left of it, red and margin, hangs together.
    const [longest] = lines;
    expect(longest.lengthMm).toBeGreaterThan(40);
    expect(lines).toHaveLength(2);
  });

  test.each([1, 2, 3, 4])("a clean pair has none, draw %d", (seed) => {
    const slow: Extra = (x, y) => brown(1.5 * Math.sin(x / 11) * Math.cos(y / 13));
    expect(linesOf({ seed, noise: 0.3, shiftMm: [0.15, -0.15], after: slow })).toEqual([]);
  });

  test.each<[string, Extra]>([
    ["the edge of an uncleaned patch", (x) => brown(x > 45 ? 2 : 0)],
    ["a broad band", (_, y) => brown(3 * Math.exp(-(((y - 62) / 4) ** 2)))],
    ["a crease without brown", (_, y) => [-3 * Math.exp(-(((y - 62) / 0.8) ** 2)), 0, 0]],
    ["a line that went", (_, y) => brown(-2 * Math.exp(-(((y - 62) / 0.8) ** 2)))],
    ["a spot", (x, y) => brown(4 * Math.exp(-((x - 30) ** 2 + (y - 62) ** 2) / 2))],
    ["a scratch of 5 mm", tide(1, 3, [30, 35])],
  ])("%s is none", (_, after) => {
    expect(linesOf({ after })).toEqual([]);
  });

  test("a line that was there before is none", () => {
    const old = tide(1, 3);
    expect(linesOf({ before: old, after: old })).toEqual([]);
  });
});
