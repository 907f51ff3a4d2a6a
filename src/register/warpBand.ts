import { rowSampler, type RowSampler } from "./nodeField.ts";
import type { SheetMap } from "./sheetMap.ts";
import { NO_STRUCTURE, type StructureImage } from "./structureImage.ts";
import type { Lattice } from "./workingGrey.ts";

/** Rows of the after structure, brought onto the lattice of the before frame. */
export type BandWarper = (firstRow: number, rows: number, out: Float32Array) => void;

/**
 * Prepares sampling of the after frame through a map, bilinear.
 * @param columns Range of before columns that is wanted: first, and how many.
 * @returns A function that fills `rows` x `columns.count` values; NaN where the after frame shows no sheet.
 */
export function bandWarper(
  after: StructureImage,
  map: SheetMap,
  before: Lattice,
  columns: { readonly first: number; readonly count: number },
): BandWarper {
  const { a, b, c, d, tx, ty } = map.affine;
  const { values, width, height } = after;
  const xs = Float64Array.from(
    { length: columns.count },
    (_, i) => before.left + (columns.first + i + 0.5) * before.pitchX,
  );
  const sample: RowSampler = rowSampler(map.field, xs);
  const dx = new Float64Array(columns.count);
  const dy = new Float64Array(columns.count);
  return (firstRow, rows, out) => {
    for (let row = 0, i = 0; row < rows; row++) {
      const y = before.top + (firstRow + row + 0.5) * before.pitchY;
      sample(y, dx, dy);
      for (let column = 0; column < columns.count; column++, i++) {
        const px = xs[column] + dx[column];
        const py = y + dy[column];
        const u = (a * px + b * py + tx - after.left) / after.pitchX - 0.5;
        const v = (c * px + d * py + ty - after.top) / after.pitchY - 0.5;
        const u0 = Math.floor(u);
        const v0 = Math.floor(v);
        if (!(u0 >= 0 && v0 >= 0 && u0 + 1 < width && v0 + 1 < height)) {
          out[i] = NaN;
          continue;
        }
        const at = v0 * width + u0;
        const v00 = values[at];
        const v10 = values[at + 1];
        const v01 = values[at + width];
        const v11 = values[at + width + 1];
        if (
          v00 === NO_STRUCTURE ||
          v10 === NO_STRUCTURE ||
          v01 === NO_STRUCTURE ||
          v11 === NO_STRUCTURE
        ) {
          out[i] = NaN;
          continue;
        }
        const upper = v00 + (u - u0) * (v10 - v00);
        const lower = v01 + (u - u0) * (v11 - v01);
        out[i] = upper + (v - v0) * (lower - upper);
      }
    }
  };
}
