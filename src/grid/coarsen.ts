import { blockMiddles } from "./blockMiddles.ts";
import type { CoarserGrid } from "./coarserGrid.ts";

/** A figure of each cell: a plane, or what it holds above another. NaN where there are no data. */
export interface Figure {
  readonly plane: Float32Array;
  readonly less: Float32Array | null;
}

export interface Coarsened {
  /** That of the block's middle; 0 where too few of its cells have it. */
  readonly labels: Uint8Array;
  /** Mean of each figure over the block's cells of that label; NaN where the label is 0. */
  readonly means: readonly Float32Array[];
}

/**
 * Means over the blocks of a coarser grid, of cells of one label.
 * @param labels Label of each cell of the finer grid, 0 where it has none. @param width Of the finer grid.
 * @param figures Cells in which the first is NaN don't count.
 * @param leastShare Of a block's cells that must have its label.
 */
export function coarsen(
  labels: Uint8Array,
  width: number,
  coarse: CoarserGrid,
  figures: readonly Figure[],
  leastShare: number,
): Coarsened {
  const { factor } = coarse;
  const fine = { width, height: labels.length / width };
  const kept = blockMiddles(labels, fine, coarse, factor);
  const means = figures.map(() => new Float32Array(kept.length).fill(NaN));
  const sums = new Float64Array(figures.length);
  const least = leastShare * factor * factor;
  const [first] = figures;
  for (let row = 0, at = 0; row < coarse.height; row++)
    for (let column = 0; column < coarse.width; column++, at++) {
      const label = kept[at];
      if (label === 0) continue;
      let count = 0;
      sums.fill(0);
      for (let y = 0; y < factor; y++)
        for (let x = 0; x < factor; x++) {
          const i = (row * factor + y) * width + column * factor + x;
          if (labels[i] !== label || Number.isNaN(figureAt(first, i))) continue;
          count++;
          for (let k = 0; k < figures.length; k++) sums[k] += figureAt(figures[k], i);
        }
      if (count < least) kept[at] = 0;
      else for (let k = 0; k < means.length; k++) means[k][at] = sums[k] / count;
    }
  return { labels: kept, means };
}

function figureAt({ plane, less }: Figure, i: number): number {
  return less === null ? plane[i] : plane[i] - less[i];
}
