import type { Raster } from "./raster.ts";
import { checkRows, rowSource, type RowSource } from "./rowSource.ts";

/**
 * The middle row of every `every` rows: a third or a fifth of the pixels is plenty for means over large cells.
 * A row (r) of the result and one (R) of the source are related by R = (r + 0.5) every - 0.5; a rest of fewer rows at the bottom
 * is left off.
 * @param every Odd, so that there is a middle row; 1 gives the source as it is.
 * @throws {RangeError} `every` is even, or more than the rows there are.
 */
export function sparseRows(raster: Raster | RowSource, every: number): RowSource {
  const source = rowSource(raster);
  const { width, bitDepth } = source;
  const height = Math.floor(source.height / every);
  if (!(every % 2 === 1) || height < 1)
    throw new RangeError(
      `Expected an odd number of at most ${source.height} rows, received ${every}.`,
    );
  if (every === 1) return source;
  let kept = new Uint8Array(0) as Uint8Array | Uint16Array;
  return {
    width,
    height,
    bitDepth,
    rows(first, count) {
      checkRows(height, first, count);
      const length = 3 * width * count;
      if (kept.length < length)
        kept = bitDepth === 8 ? new Uint8Array(length) : new Uint16Array(length);
      for (let k = 0; k < count; k++)
        kept.set(source.rows((first + k) * every + (every - 1) / 2, 1), 3 * width * k);
      return kept.subarray(0, length);
    },
  };
}
