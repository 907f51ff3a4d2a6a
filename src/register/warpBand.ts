import { clearOf } from "../grid/hole.ts";
import { rowSampler } from "./nodeField.ts";
import type { SheetMap } from "./sheetMap.ts";
import { NO_STRUCTURE, type StructureImage } from "./structureImage.ts";
import type { Lattice } from "./workingGrey.ts";

/** The map is exact at knots at most this far apart, and linear between: 0.06 px at 600 dpi off in waves of 55 mm. */
const KNOT_MM = 0.7;

/**
 * Fills `rows` x `columns.count` values of the after structure as the before lattice sees it.
 * @param out Row-major; NaN where the after frame shows no sheet.
 * @param hidden One a column: set to 1 where a value in it is NaN, else to 0.
 */
export type BandWarper = (
  firstRow: number,
  rows: number,
  out: Float64Array,
  hidden: Uint8Array,
) => void;

/**
 * Prepares sampling of the after frame through a map, bilinear.
 * @param columns Range of before columns that is wanted: first, and how many.
 */
export function bandWarper(
  after: StructureImage,
  map: SheetMap,
  before: Lattice,
  columns: { readonly first: number; readonly count: number },
): BandWarper {
  const { a, b, c, d, tx, ty } = map.affine;
  const stride = Math.max(1, Math.floor(KNOT_MM / before.pitchX));
  const knots = Math.ceil(columns.count / stride) + 1;
  const xs = Float64Array.from(
    { length: knots },
    (_, i) => before.left + (columns.first + i * stride + 0.5) * before.pitchX,
  );
  const sample = rowSampler(map.field, xs);
  const dx = new Float64Array(knots);
  const dy = new Float64Array(knots);
  // Places in after pixels at the knots of a row.
  const us = new Float64Array(knots);
  const vs = new Float64Array(knots);
  return (firstRow, rows, out, hidden) => {
    hidden.fill(0);
    for (let row = 0, i = 0; row < rows; row++) {
      const y = before.top + (firstRow + row + 0.5) * before.pitchY;
      sample(y, dx, dy);
      for (let k = 0; k < knots; k++) {
        const px = xs[k] + dx[k];
        const py = y + dy[k];
        us[k] = (a * px + b * py + tx - after.left) / after.pitchX - 0.5;
        vs[k] = (c * px + d * py + ty - after.top) / after.pitchY - 0.5;
      }
      for (let k = 0, column = 0; column < columns.count; k++, column += stride) {
        const count = Math.min(stride, columns.count - column);
        const run = {
          u: us[k],
          v: vs[k],
          du: (us[k + 1] - us[k]) / stride,
          dv: (vs[k + 1] - vs[k]) / stride,
          count,
        };
        if (isPlain(after, run, count - 1)) sampleShown(after, run, out, i);
        else sampleAny(after, run, out, i, hidden.subarray(column, column + count));
        i += count;
      }
    }
  };
}

/** Places along a straight line in after pixels. */
interface Run {
  readonly u: number;
  readonly v: number;
  readonly du: number;
  readonly dv: number;
  readonly count: number;
}

/** Whether place k of a run has its four neighbours in the picture. */
function shows({ width, height }: Lattice, { u, v, du, dv }: Run, k: number): boolean {
  const x = u + k * du;
  const y = v + k * dv;
  return x >= 0 && y >= 0 && x < width - 1 && y < height - 1;
}

/** Whether the picture shows the sheet from place 0 of a run to place `last`, and around. */
function isPlain(picture: StructureImage, run: Run, last: number): boolean {
  const endU = run.u + last * run.du;
  const endV = run.v + last * run.dv;
  return (
    shows(picture, run, 0) &&
    shows(picture, run, last) &&
    clearOf(
      picture.hole,
      Math.min(run.u, endU) - 1,
      Math.max(run.u, endU) + 1,
      Math.min(run.v, endV) - 1,
      Math.max(run.v, endV) + 1,
    )
  );
}

/** Samples a run that lies wholly on the sheet. */
function sampleShown(
  { values, width }: StructureImage,
  { u, v, du, dv, count }: Run,
  out: Float64Array,
  at: number,
): void {
  for (let k = 0; k < count; k++) {
    const x = u + k * du;
    const y = v + k * dv;
    const x0 = Math.floor(x);
    const y0 = Math.floor(y);
    const corner = y0 * width + x0;
    const below = corner + width;
    const s = x - x0;
    const upper = values[corner] + s * (values[corner + 1] - values[corner]);
    const lower = values[below] + s * (values[below + 1] - values[below]);
    out[at + k] = upper + (y - y0) * (lower - upper);
  }
}

/** Samples any run; NaN, and 1 in `hidden`, where the picture shows no sheet. */
function sampleAny(
  picture: StructureImage,
  run: Run,
  out: Float64Array,
  at: number,
  hidden: Uint8Array,
): void {
  const { values, width } = picture;
  for (let k = 0; k < run.count; k++) {
    out[at + k] = NaN;
    if (shows(picture, run, k)) {
      const x = run.u + k * run.du;
      const y = run.v + k * run.dv;
      const x0 = Math.floor(x);
      const y0 = Math.floor(y);
      const corner = y0 * width + x0;
      const v00 = values[corner];
      const v10 = values[corner + 1];
      const v01 = values[corner + width];
      const v11 = values[corner + width + 1];
      if (Math.min(v00, v10, v01, v11) !== NO_STRUCTURE) {
        const upper = v00 + (x - x0) * (v10 - v00);
        const lower = v01 + (x - x0) * (v11 - v01);
        out[at + k] = upper + (y - y0) * (lower - upper);
        continue;
      }
    }
    hidden[k] = 1;
  }
}
