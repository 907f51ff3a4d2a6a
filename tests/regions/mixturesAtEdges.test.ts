import { describe, expect, test } from "vitest";
import type { Triple } from "../../src/numeric/triple.ts";
import { foldMixtures, mixturesAtEdges } from "../../src/regions/mixturesAtEdges.ts";
import type { ModeStatistics } from "../../src/regions/modeStatistics.ts";

/** Rows of a picture, one digit a cell: label k + 1; all cells of label 3 lie on an edge. */
function picture(rows: readonly string[], labs: readonly Triple[]) {
  const labels = Uint8Array.from(rows.join(""), Number);
  const edges = labels.map((label) => (label === 3 ? 1 : 0));
  const colours = labs.map((lab, k): ModeStatistics => ({
    lab,
    cells: labels.filter((label) => label === k + 1).length,
    rimCells: 0,
    sharpness: [],
  }));
  return { labels, edges, colours };
}

const ROWS = ["1111132222", "1111132222", "1111132222"];
const YELLOW: Triple = [75, 5, 60];
const BLACK: Triple = [25, 1, 4];

describe("a colour along the border of two others", () => {
  // Half the light of yellow and of black.
  const half: Triple = [57, 4, 46];

  test("is no ink when they make it, and its cells go to them, into no mean", () => {
    const { labels, edges, colours } = picture(ROWS, [YELLOW, BLACK, half]);
    const mixtures = mixturesAtEdges(colours, labels, edges);
    expect(mixtures).toEqual([{ mixture: 2, ends: [0, 1] }]);
    const unfit = new Uint8Array(labels.length);
    foldMixtures(mixtures, labels, unfit, (cell) => cell < 10);
    expect([...labels.subarray(0, 10)].join("")).toBe("1111112222");
    expect([...labels.subarray(10, 20)].join("")).toBe("1111122222");
    expect(unfit.reduce((sum, value) => sum + value, 0)).toBe(3);
  });

  test("is an ink when it is darker than both: a black of lines alone", () => {
    const { labels, edges, colours } = picture(ROWS, [YELLOW, [50, 45, 25], BLACK]);
    expect(mixturesAtEdges(colours, labels, edges)).toEqual([]);
  });

  test("is an ink when it lies elsewhere, too", () => {
    const { labels, colours } = picture(ROWS, [YELLOW, BLACK, half]);
    expect(mixturesAtEdges(colours, labels, new Uint8Array(labels.length))).toEqual([]);
  });
});
