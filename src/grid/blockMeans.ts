import type { Triple } from "../numeric/triple.ts";
import type { Planes } from "./planes.ts";

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
  const { width, height, channels } = planes;
  const [r, g, b] = channels;
  const across = Math.ceil(width / blockCells);
  const blocks = across * Math.ceil(height / blockCells);
  const sums = new Float64Array(3 * blocks);
  const counts = new Int32Array(blocks);
  for (const cell of cells) {
    const row = Math.floor(cell / width);
    const block =
      Math.floor(row / blockCells) * across + Math.floor((cell - row * width) / blockCells);
    sums[3 * block] += r[cell];
    sums[3 * block + 1] += g[cell];
    sums[3 * block + 2] += b[cell];
    counts[block]++;
  }
  const least = LEAST_FILLING * blockCells * blockCells;
  const means: Triple[] = [];
  for (let block = 0; block < blocks; block++) {
    const count = counts[block];
    if (count > 0 && count >= least)
      means.push([
        sums[3 * block] / count,
        sums[3 * block + 1] / count,
        sums[3 * block + 2] / count,
      ]);
  }
  return means;
}
