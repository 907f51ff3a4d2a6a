import type { Triple } from "../numeric/triple.ts";
import type { Planes } from "./planes.ts";

/**
 * Mean of the three planes over some cells, in linear light. NaN where there are no cells.
 * @param weights One a cell of the planes. Default: all alike.
 */
export function meanOverCells(planes: Planes, cells: Int32Array, weights?: Float32Array): Triple {
  const [r, g, b] = planes.channels;
  let sumR = 0;
  let sumG = 0;
  let sumB = 0;
  let total = 0;
  for (const cell of cells) {
    const weight = weights === undefined ? 1 : weights[cell];
    sumR += weight * r[cell];
    sumG += weight * g[cell];
    sumB += weight * b[cell];
    total += weight;
  }
  return [sumR / total, sumG / total, sumB / total];
}
