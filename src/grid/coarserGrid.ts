import type { Grid } from "./grid.ts";

/** A grid whose cells are square blocks of whole cells of a finer one. */
export interface CoarserGrid extends Grid {
  /** Cells of the finer grid along a side of a block. */
  readonly factor: number;
}

/** Blocks of about `sideMm`, at least one cell. Cells at the right and lower rim that fill no whole block are left out. */
export function coarserGrid(grid: Grid, sideMm: number): CoarserGrid {
  const factor = Math.max(1, Math.round(sideMm / grid.mmPerCell));
  return {
    factor,
    width: Math.floor(grid.width / factor),
    height: Math.floor(grid.height / factor),
    mmPerCell: factor * grid.mmPerCell,
    stepX: factor * grid.stepX,
    stepY: factor * grid.stepY,
  };
}
