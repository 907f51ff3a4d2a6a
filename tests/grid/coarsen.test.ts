import { expect, test } from "vitest";
import { coarsen } from "../../src/grid/coarsen.ts";
import { coarserGrid } from "../../src/grid/coarserGrid.ts";

const FINE = { width: 5, height: 4, mmPerCell: 0.2, stepX: 2, stepY: 3 };

test("a coarser grid holds whole blocks alone, and places stay where they are", () => {
  const grid = coarserGrid(FINE, 0.35);
  expect(grid).toEqual({ factor: 2, width: 2, height: 2, mmPerCell: 0.4, stepX: 4, stepY: 6 });
  expect(coarserGrid(FINE, 0.01).factor).toBe(1);
});

test("a block has the label of its middle, and means over that label alone", () => {
  const labels = Uint8Array.of(
    ...[1, 1, 0, 0, 1],
    ...[1, 1, 0, 2, 1],
    ...[3, 1, 1, 2, 1],
    ...[1, 1, 2, 2, 1],
  );
  const plane = Float32Array.from(labels, (_, i) => (i === 0 ? NaN : i));
  const less = new Float32Array(20).fill(1);
  const grid = coarserGrid(FINE, 0.4);
  const figures = [
    { plane, less: null },
    { plane, less },
  ];
  const half = coarsen(labels, 5, grid, figures, 1 / 2);
  // Upper right: one cell of four has the label of the middle.
  expect([...half.labels]).toEqual([1, 0, 1, 2]);
  expect([...half.means[0]]).toEqual([4, NaN, Math.fround(42 / 3), Math.fround(48 / 3)]);
  expect(half.means[1][0]).toBe(3);
  expect([...coarsen(labels, 5, grid, figures, 1).labels]).toEqual([0, 0, 0, 0]);
});
