import type { Grid } from "../grid/grid.ts";

/** A smooth displacement held at nodes of a square grid over the before sheet, lengths in mm; `mmPerCell` from node to node. */
export interface NodeField extends Pick<Grid, "width" | "height" | "mmPerCell"> {
  /** Place of node (0, 0). */
  readonly left: number;
  readonly top: number;
  /** Row-major, width * height. */
  readonly dx: Float64Array;
  readonly dy: Float64Array;
}

/** Weights of the four nodes at -1, 0, 1, 2 for a place t in 0..1 between 0 and 1 (Catmull & Rom 1974, uniform). */
function catmullRom(t: number, out: Float64Array, at: number): void {
  const t2 = t * t;
  const t3 = t2 * t;
  out[at] = (-t3 + 2 * t2 - t) / 2;
  out[at + 1] = (3 * t3 - 5 * t2 + 2) / 2;
  out[at + 2] = (-3 * t3 + 4 * t2 + t) / 2;
  out[at + 3] = (t3 - t2) / 2;
}

/** First of the four nodes, before clamping, and their weights; places beyond the rim take the rim's. */
function stencil(place: number, count: number, weights: Float64Array, at: number): number {
  const clamped = Math.max(0, Math.min(count - 1, place));
  const base = Math.max(0, Math.min(count - 2, Math.floor(clamped)));
  catmullRom(clamped - base, weights, at);
  return base - 1;
}

const clampIndex = (i: number, count: number): number => (i < 0 ? 0 : i >= count ? count - 1 : i);

const X = new Float64Array(4);
const Y = new Float64Array(4);

/**
 * The displacement at a place, by Catmull-Rom interpolation; beyond the rim, that of the nearest place on it.
 * @param out Receives dx, dy in mm.
 */
export function displacementAt(
  field: NodeField,
  x: number,
  y: number,
  out: Float64Array = new Float64Array(2),
): Float64Array {
  const { width, height, dx, dy } = field;
  const column = stencil((x - field.left) / field.mmPerCell, width, X, 0);
  const row = stencil((y - field.top) / field.mmPerCell, height, Y, 0);
  let sx = 0;
  let sy = 0;
  for (let j = 0; j < 4; j++) {
    const start = clampIndex(row + j, height) * width;
    for (let i = 0; i < 4; i++) {
      const weight = X[i] * Y[j];
      const at = start + clampIndex(column + i, width);
      sx += weight * dx[at];
      sy += weight * dy[at];
    }
  }
  out[0] = sx;
  out[1] = sy;
  return out;
}

/** Fills the displacement of every place of one row. */
export type RowSampler = (y: number, outX: Float64Array, outY: Float64Array) => void;

/**
 * The same interpolation for many rows that share their x: the weights along x are computed once.
 * @param xs Places along a row, mm.
 */
export function rowSampler(field: NodeField, xs: Float64Array): RowSampler {
  const { width, height, dx, dy } = field;
  const weights = new Float64Array(4 * xs.length);
  const bases = new Int32Array(xs.length);
  // Padded by a clamped column on the left and two on the right, so that the inner loop needs no clamp.
  for (let i = 0; i < xs.length; i++)
    bases[i] = stencil((xs[i] - field.left) / field.mmPerCell, width, weights, 4 * i) + 1;
  const lineX = new Float64Array(width + 3);
  const lineY = new Float64Array(width + 3);
  return (y, outX, outY) => {
    const row = stencil((y - field.top) / field.mmPerCell, height, Y, 0);
    for (let c = 0; c < width + 3; c++) {
      const column = clampIndex(c - 1, width);
      let sx = 0;
      let sy = 0;
      for (let j = 0; j < 4; j++) {
        const at = clampIndex(row + j, height) * width + column;
        sx += Y[j] * dx[at];
        sy += Y[j] * dy[at];
      }
      lineX[c] = sx;
      lineY[c] = sy;
    }
    for (let i = 0, w = 0; i < bases.length; i++, w += 4) {
      const b = bases[i];
      const w0 = weights[w];
      const w1 = weights[w + 1];
      const w2 = weights[w + 2];
      const w3 = weights[w + 3];
      outX[i] = w0 * lineX[b] + w1 * lineX[b + 1] + w2 * lineX[b + 2] + w3 * lineX[b + 3];
      outY[i] = w0 * lineY[b] + w1 * lineY[b + 1] + w2 * lineY[b + 2] + w3 * lineY[b + 3];
    }
  };
}
