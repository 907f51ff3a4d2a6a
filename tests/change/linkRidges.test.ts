import { describe, expect, test } from "vitest";
import { linkRidges } from "../../src/change/linkRidges.ts";
import type { RidgeMap } from "../../src/change/ridgeMap.ts";

const GRID = { width: 40, height: 30, mmPerCell: 0.5, stepX: 1, stepY: 1 };
/** Index 6 of twelve: down the sheet. Index 0: across it. */
const DOWN = 6;
const ACROSS = 0;

function map(crests: readonly (readonly [column: number, row: number, direction: number])[]) {
  const size = GRID.width * GRID.height;
  const ridges: RidgeMap = {
    height: new Float32Array(size).fill(NaN),
    direction: new Uint8Array(size),
  };
  for (const [column, row, direction] of crests) {
    ridges.height[row * GRID.width + column] = 2;
    ridges.direction[row * GRID.width + column] = direction;
  }
  return ridges;
}

const down = (column: number, from: number, to: number) =>
  Array.from({ length: to - from }, (_, k) => [column, from + k, DOWN] as const);
const columnsOf = (cells: readonly number[]) => [
  ...new Set(cells.map((cell) => cell % GRID.width)),
];

describe("ridges linked to lines", () => {
  test("a crest down the right edge and one down the left edge, a row lower, are two lines", () => {
    const lines = linkRidges(map([...down(39, 2, 12), ...down(0, 3, 13)]), GRID, () => 1);
    expect(lines.map(({ cells }) => columnsOf(cells))).toEqual([[39], [0]]);
    for (const { lengthMm } of lines) expect(lengthMm).toBeCloseTo(4.5, 9);
  });

  test("a higher ridge at the other side of the frame does not outrank a crest at this side", () => {
    const ridges = map([...down(0, 2, 14), ...down(39, 1, 13)]);
    for (let row = 1; row < 13; row++) ridges.height[row * GRID.width + 39] = 5;
    const lines = linkRidges(ridges, GRID, () => 1);
    expect(lines.map(({ cells }) => columnsOf(cells)).sort((a, b) => a[0] - b[0])).toEqual([
      [0],
      [39],
    ]);
  });

  test("of two neighbouring ridges only the higher is a crest", () => {
    const ridges = map([...down(20, 2, 14), ...down(21, 2, 14)]);
    for (let row = 2; row < 14; row++) ridges.height[row * GRID.width + 21] = 5;
    const [line, ...rest] = linkRidges(ridges, GRID, () => 1);
    expect([columnsOf(line.cells), rest]).toEqual([[21], []]);
  });

  test("pieces on one course join over a gap of 8 mm, not over one of 13", () => {
    const across = (from: number, to: number) =>
      Array.from({ length: to - from }, (_, k) => [from + k, 15, ACROSS] as const);
    // Half a millimetre a cell: from column 9 to 25 are 8 mm.
    const near = linkRidges(map([...across(1, 10), ...across(25, 36)]), GRID, () => 1);
    expect(near).toHaveLength(1);
    expect(near[0].lengthMm).toBeCloseTo(4 + 5, 9);
    const far = linkRidges(map([...across(0, 8), ...across(33, 40)]), GRID, () => 1);
    expect(far).toHaveLength(2);
  });

  test("below its threshold nothing is a crest", () => {
    expect(linkRidges(map(down(20, 2, 20)), GRID, () => 2.5)).toEqual([]);
  });
});
