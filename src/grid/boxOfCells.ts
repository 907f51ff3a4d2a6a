import type { Box } from "./box.ts";
import type { Grid } from "./grid.ts";

/**
 * The box in full pixels round some cells of a grid.
 * @param cells Indices, row-major; at least one.
 */
export function boxOfCells(cells: readonly number[], { width, stepX, stepY }: Grid): Box {
  let [left, right, top, bottom] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const cell of cells) {
    const row = Math.floor(cell / width);
    const column = cell - row * width;
    left = Math.min(left, column);
    right = Math.max(right, column + 1);
    top = Math.min(top, row);
    bottom = Math.max(bottom, row + 1);
  }
  return [
    Math.round(left * stepX),
    Math.round(top * stepY),
    Math.round((right - left) * stepX),
    Math.round((bottom - top) * stepY),
  ];
}
