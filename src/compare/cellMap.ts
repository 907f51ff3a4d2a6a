import type { CellMap } from "../change/warpPlanes.ts";
import type { Planes } from "../raster/planes.ts";
import { mapPoint } from "../register/mapPoint.ts";
import type { Registration } from "../register/registration.ts";
import { trustAt } from "../register/trustAt.ts";

export interface TrustedCellMap extends CellMap {
  /** 0..2 a cell, trusted above 0.8; NaN off the sheet and where the after frame shows nothing. */
  readonly trust: Float32Array;
}

/** The map is exact at every so many cells (1.4 mm at 150 dpi) and linear between: far below the spacing of its nodes. */
const KNOT_CELLS = 8;

/** Where each cell of the before lattice lies in the after frame. `null`: both frames are the same file. */
export function cellMap(registration: Registration | null, lattice: Planes): TrustedCellMap {
  const { width, height, stepX, stepY } = lattice;
  const x = new Float32Array(width * height);
  const y = new Float32Array(width * height);
  const trust = new Float32Array(width * height);
  const fullX = (column: number): number => (column + 0.5) * stepX - 0.5;
  const fullY = (row: number): number => (row + 0.5) * stepY - 0.5;
  if (registration === null) {
    for (let row = 0, i = 0; row < height; row++)
      for (let column = 0; column < width; column++, i++) {
        x[i] = fullX(column);
        y[i] = fullY(row);
        trust[i] = 2;
      }
    return { x, y, trust };
  }
  const columns = Math.ceil((width - 1) / KNOT_CELLS) + 1;
  const rows = Math.ceil((height - 1) / KNOT_CELLS) + 1;
  const knots = Array.from({ length: columns * rows }, (_, k) => {
    const X = fullX((k % columns) * KNOT_CELLS);
    const Y = fullY(Math.floor(k / columns) * KNOT_CELLS);
    const [u, v] = mapPoint(registration, X, Y);
    return [u, v, trustAt(registration, X, Y)] as const;
  });
  for (let row = 0, i = 0; row < height; row++) {
    const knotRow = Math.min(Math.floor(row / KNOT_CELLS), rows - 2);
    const t = row / KNOT_CELLS - knotRow;
    for (let column = 0; column < width; column++, i++) {
      const knotColumn = Math.min(Math.floor(column / KNOT_CELLS), columns - 2);
      const s = column / KNOT_CELLS - knotColumn;
      const at = knotRow * columns + knotColumn;
      const [p, q] = [knots[at], knots[at + 1]];
      const [r, w] = [knots[at + columns], knots[at + columns + 1]];
      x[i] = (1 - t) * ((1 - s) * p[0] + s * q[0]) + t * ((1 - s) * r[0] + s * w[0]);
      y[i] = (1 - t) * ((1 - s) * p[1] + s * q[1]) + t * ((1 - s) * r[1] + s * w[1]);
      trust[i] = knots[at + (s > 0.5 ? 1 : 0) + (t > 0.5 ? columns : 0)][2];
    }
  }
  return { x, y, trust };
}
