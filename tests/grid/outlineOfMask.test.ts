import { expect, test } from "vitest";
import { outlineOfMask } from "../../src/grid/outlineOfMask.ts";

const LATTICE = { width: 10, height: 8, stepX: 4, stepY: 2 };

function mask(...cells: readonly (readonly [column: number, row: number])[]): Uint8Array {
  const out = new Uint8Array(80);
  for (const [column, row] of cells) out[row * 10 + column] = 1;
  return out;
}

const sorted = (points: readonly (readonly [number, number])[] | null) =>
  points === null ? null : [...points].sort((p, q) => p[0] - q[0] || p[1] - q[1]);

test("a rectangle: its four outer corners in full pixels", () => {
  const cells = [2, 3, 4].flatMap((column) => [1, 2].map((row) => [column, row] as const));
  expect(sorted(outlineOfMask(mask(...cells), LATTICE))).toEqual([
    [7.5, 1.5],
    [7.5, 5.5],
    [19.5, 1.5],
    [19.5, 5.5],
  ]);
});

test("a cell at either end of a row and one below: the hull holds all three, and what is between", () => {
  const outline = sorted(outlineOfMask(mask([0, 0], [9, 0], [4, 7]), LATTICE));
  expect(outline).toEqual([
    [-0.5, -0.5],
    [-0.5, 1.5],
    [15.5, 15.5],
    [19.5, 15.5],
    [39.5, -0.5],
    [39.5, 1.5],
  ]);
});

test("nothing on the mask: none", () => {
  expect(outlineOfMask(mask(), LATTICE)).toBeNull();
});
