import type { StripeGrid } from "./findStripes.ts";

/** Upper edge of a white stripe at a column. */
export function edgeAt(grid: StripeGrid, x: number): number {
  return grid.edgeY + grid.tilt * (x - grid.x);
}
