import type { Box } from "./box.ts";
import type { Grid } from "./grid.ts";

/**
 * The box round some cells of a coarser lattice.
 * @param cells Indices, row-major over `columns`; at least one.
 * @param factor Cells of the view along a side of a coarse cell.
 */
export function boxOfCells(
  cells: readonly number[],
  columns: number,
  factor: number,
  { stepX, stepY }: Grid,
): Box {
  let [left, right, top, bottom] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const cell of cells) {
    const row = Math.floor(cell / columns);
    const column = cell - row * columns;
    left = Math.min(left, column);
    right = Math.max(right, column + 1);
    top = Math.min(top, row);
    bottom = Math.max(bottom, row + 1);
  }
  const [x, y] = [factor * stepX, factor * stepY];
  return [
    Math.round(left * x),
    Math.round(top * y),
    Math.round((right - left) * x),
    Math.round((bottom - top) * y),
  ];
}
