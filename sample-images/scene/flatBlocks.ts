import type { Plates } from "./plates.ts";

/** Lattice points along one side of a block. */
export const BLOCK = 4;
/** A block is flat when the plates are even over it and this many points around it: more than half a pixel at 100 dpi. */
const BLOCK_APRON = 3;

/** What is printed on each block of the plates, so that even areas need no look at every point. */
export interface FlatBlocks {
  readonly columns: number;
  readonly rows: number;
  /** -2 pictures and edges, -1 one flat tint, 0..15 that overprint of solids (0 bare paper). */
  readonly kind: Int8Array;
}

export function flatBlocks(plates: Plates): FlatBlocks {
  const columns = Math.ceil(plates.columns / BLOCK);
  const rows = Math.ceil(plates.rows / BLOCK);
  const kind = new Int8Array(columns * rows);
  const planes = [...plates.line, ...plates.tone];
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      const left = Math.max(0, column * BLOCK - BLOCK_APRON);
      const right = Math.min(plates.columns, (column + 1) * BLOCK + BLOCK_APRON);
      const top = Math.max(0, row * BLOCK - BLOCK_APRON);
      const bottom = Math.min(plates.rows, (row + 1) * BLOCK + BLOCK_APRON);
      const first = top * plates.columns + left;
      let flat = true;
      for (let p = 0; p < planes.length && flat; p++) {
        const plane = planes[p];
        const value = plane[first];
        for (let r = top; r < bottom && flat; r++)
          for (let at = r * plates.columns + left; at < r * plates.columns + right; at++)
            if (plane[at] !== value) {
              flat = false;
              break;
            }
      }
      let code = flat ? 0 : -2;
      for (let ink = 0; ink < 4 && flat; ink++) {
        if (plates.tone[ink][first] > 0) code = -1;
        else if (code >= 0 && plates.line[ink][first] === 255) code |= 1 << ink;
        else if (code >= 0 && plates.line[ink][first] !== 0) code = -2;
      }
      kind[row * columns + column] = code;
    }
  return { columns, rows, kind };
}
