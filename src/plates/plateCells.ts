import type { ThreePlanes } from "../grid/threePlanes.ts";
import { SMALLEST_BAND, XYZ_D50_TO_BANDS } from "../print/plateBands.ts";

/** Cells of 1 mm of one sheet, before and after, where both scans can be trusted. */
export interface PlateCells {
  /** The grid of the sheet, in cells (mm). */
  readonly width: number;
  readonly height: number;
  /** Where each trusted cell lies: row x width + column, rising. */
  readonly places: Int32Array;
  /** ln of the bands r, g, b before and after, three values a cell. */
  readonly before: Float64Array;
  readonly after: Float64Array;
  /** e: largest spread of ln of a band before over the 3 x 3 cells around; NaN where one of them is not known. */
  readonly spread: Float64Array;
  /** Indices of the cells that speak for the plates: neither across an outline nor changed by something else than washing. */
  readonly usable: Int32Array;
}

const LARGEST_SPREAD = 1.2;
const LARGEST_CHANGE = 1.2;

/**
 * Cells from two scans reduced to 1 mm in linear light.
 * @param planes `before` and `after`: X, Y, Z (D50, white Y = 1), row-major, width x height, one value a mm; NaN = not known.
 *   `trusted`: cells with 0 are left out. Default: all are trusted.
 * @throws {RangeError} A plane has another length.
 */
export function cellsOfPlanes(planes: {
  readonly width: number;
  readonly height: number;
  readonly before: ThreePlanes;
  readonly after: ThreePlanes;
  readonly trusted?: Uint8Array;
}): PlateCells {
  const { width, height, before, after, trusted } = planes;
  const size = width * height;
  for (const plane of [...before, ...after, ...(trusted === undefined ? [] : [trusted])])
    if (plane.length !== size)
      throw new RangeError(`Expected planes of ${size} cells, received ${plane.length}.`);
  const lb = logBands(before);
  const la = logBands(after);
  const places = new Int32Array(size);
  const spread = new Float64Array(size);
  let count = 0;
  for (let row = 0; row < height; row++)
    for (let column = 0; column < width; column++) {
      const i = row * width + column;
      if (trusted?.[i] === 0) continue;
      let sum = 0;
      for (let c = 0; c < 3; c++) sum += lb[3 * i + c] + la[3 * i + c];
      if (!Number.isFinite(sum)) continue;
      places[count] = i;
      spread[count] = spreadAround(lb, width, height, row, column);
      count++;
    }
  const kept = places.slice(0, count);
  return cellsAt({
    width,
    height,
    places: kept,
    before: triplesAt(lb, kept),
    after: triplesAt(la, kept),
    spread: spread.slice(0, count),
  });
}

/** Cells whose figures are known already, with those that are usable picked out. */
export function cellsAt(cells: Omit<PlateCells, "usable">): PlateCells {
  const { places, before, after, spread } = cells;
  const usable = new Int32Array(places.length);
  let count = 0;
  for (let i = 0; i < places.length; i++) {
    let change = 0;
    for (let c = 0; c < 3; c++)
      change = Math.max(change, Math.abs(after[3 * i + c] - before[3 * i + c]));
    if (spread[i] <= LARGEST_SPREAD && change <= LARGEST_CHANGE) usable[count++] = i;
  }
  return { ...cells, usable: usable.slice(0, count) };
}

/** NaN of a neighbour comes out as NaN: what lies across the edge of what is known may be anything. */
function spreadAround(
  lb: Float64Array,
  width: number,
  height: number,
  row: number,
  column: number,
): number {
  let e = 0;
  for (let c = 0; c < 3; c++) {
    let least = Infinity;
    let most = -Infinity;
    for (let y = Math.max(0, row - 1); y <= Math.min(height - 1, row + 1); y++)
      for (let x = Math.max(0, column - 1); x <= Math.min(width - 1, column + 1); x++) {
        const value = lb[3 * (y * width + x) + c];
        if (Number.isNaN(value)) return NaN;
        if (value < least) least = value;
        if (value > most) most = value;
      }
    if (most - least > e) e = most - least;
  }
  return e;
}

/** The cells of one kind at some of their indices. */
export function triplesAt(values: Float64Array, indices: Int32Array): Float64Array {
  const out = new Float64Array(3 * indices.length);
  for (let i = 0; i < indices.length; i++)
    for (let c = 0; c < 3; c++) out[3 * i + c] = values[3 * indices[i] + c];
  return out;
}

function logBands([X, Y, Z]: ThreePlanes): Float64Array {
  const M = XYZ_D50_TO_BANDS;
  const out = new Float64Array(3 * X.length);
  for (let i = 0; i < X.length; i++)
    for (let c = 0; c < 3; c++) {
      const band = M[3 * c] * X[i] + M[3 * c + 1] * Y[i] + M[3 * c + 2] * Z[i];
      // Not Math.max: NaN must stay NaN, and an infinite light is as unknown.
      out[3 * i + c] = Number.isFinite(band) ? Math.log(Math.max(band, SMALLEST_BAND)) : NaN;
    }
  return out;
}
