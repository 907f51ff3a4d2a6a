/** Cells along x and along y. */
interface Extent {
  readonly width: number;
  readonly height: number;
}

/**
 * The value at the middle of each square block: what a label or a mask is on a coarser grid.
 * @param factor Cells along a side of a block; the middle of a block that reaches over the rim is taken at the rim.
 */
export function blockMiddles(
  values: Uint8Array,
  fine: Extent,
  coarse: Extent,
  factor: number,
): Uint8Array {
  const out = new Uint8Array(coarse.width * coarse.height);
  const middle = Math.floor(factor / 2);
  for (let y = 0; y < coarse.height; y++)
    for (let x = 0; x < coarse.width; x++) {
      const u = Math.min(fine.width - 1, x * factor + middle);
      const v = Math.min(fine.height - 1, y * factor + middle);
      out[y * coarse.width + x] = values[v * fine.width + u];
    }
  return out;
}
