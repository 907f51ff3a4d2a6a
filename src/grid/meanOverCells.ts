import type { Triple } from "../numeric/triple.ts";
import type { Planes } from "./planes.ts";

/** Mean of the three planes over some cells, in linear light. NaN where there are no cells. */
export function meanOverCells(planes: Planes, cells: Int32Array): Triple {
  const [r, g, b] = planes.channels;
  let sumR = 0;
  let sumG = 0;
  let sumB = 0;
  for (const cell of cells) {
    sumR += r[cell];
    sumG += g[cell];
    sumB += b[cell];
  }
  return [sumR / cells.length, sumG / cells.length, sumB / cells.length];
}
