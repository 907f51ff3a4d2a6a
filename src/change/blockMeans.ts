import type { Triple } from "../colour/triple.ts";
import type { Planes } from "../raster/planes.ts";

/** Blocks with fewer cells than this share of a full block say little and are left out. */
const LEAST_FILLING = 0.25;

/**
 * Means of an area by square blocks: what varies from block to block is the area's own sampling noise (halftone, grain,
 * JPEG).
 * @param cells Cells of the area.
 * @param blockCells Side of a block in cells.
 * @returns One linear mean a block, ordered by block; at most one entry a block.
 */
export function blockMeans(planes: Planes, cells: Int32Array, blockCells: number): Triple[] {
  const { width, channels } = planes;
  const [r, g, b] = channels;
  const across = Math.ceil(width / blockCells);
  const sums = new Map<number, [number, number, number, number]>();
  for (const cell of cells) {
    const row = Math.floor(cell / width);
    const block =
      Math.floor(row / blockCells) * across + Math.floor((cell - row * width) / blockCells);
    const sum = sums.get(block);
    if (sum === undefined) sums.set(block, [r[cell], g[cell], b[cell], 1]);
    else {
      sum[0] += r[cell];
      sum[1] += g[cell];
      sum[2] += b[cell];
      sum[3]++;
    }
  }
  const least = LEAST_FILLING * blockCells * blockCells;
  return [...sums.values()]
    .filter((sum) => sum[3] >= least)
    .map(([sumR, sumG, sumB, count]) => [sumR / count, sumG / count, sumB / count] as const);
}
