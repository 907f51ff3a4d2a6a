import type { ChannelTables } from "./channelTables.ts";
import { ROW_KERNEL } from "./kernel/rowKernel.ts";
import { wholeCellMeans } from "./wholeCellMeans.ts";
import type { Planes } from "../grid/planes.ts";
import type { Raster } from "./raster.ts";
import { rowSource, type RowSource } from "./rowSource.ts";

/** A cell border this near to a pixel border, in pixels, lies on it: the rest is rounding of the step. */
const BORDER_ROUNDING = 1e-6;

/** Rows read at a time. */
const BAND_ROWS = 64;

/** Where the far border of each whole cell lies along one axis, in pixels from the frame's edge. */
function cellBorders(pixels: number, step: number): Float64Array {
  const count = Math.floor(pixels / step + BORDER_ROUNDING);
  return Float64Array.from({ length: count }, (_, cell) => {
    const border = (cell + 1) * step;
    const whole = Math.round(border);
    return Math.abs(border - whole) < BORDER_ROUNDING ? whole : border;
  });
}

/**
 * Means over areas in linear light: each code is decoded through the tables, then averaged over cells of
 * `stepX` x `stepY` full pixels; a pixel on a cell's border counts by its area on either side.
 * Averaging codes instead would darken every halftone.
 * @param raster Device values; read once, from the top down.
 * @param tables Linear working value of each code; may hold NaN for codes that count as no data.
 * @param stepX Full pixels a cell along x, at least 1, need not be whole.
 * @param stepY The same along y. Default `stepX`.
 * @returns Whole cells only, from the top left: a rest of less than a cell at the right and the bottom is left off, so that
 *   every value lies at the centre of its cell.
 * @throws {RangeError} A step below 1 or wider than the frame, or tables of the wrong length.
 */
export function linearPlanes(
  raster: Raster | RowSource,
  tables: ChannelTables,
  stepX: number,
  stepY: number = stepX,
): Planes {
  const { width: columns } = raster;
  const source = rowSource(raster);
  if (!(stepX >= 1 && stepY >= 1 && stepX <= columns && stepY <= raster.height))
    throw new RangeError(
      `Expected steps from 1 to ${columns} x ${raster.height} pixels, received ${stepX} x ${stepY}.`,
    );
  if (tables.some((table) => table.length !== 2 ** raster.bitDepth))
    throw new RangeError(`Expected tables of ${2 ** raster.bitDepth} values.`);
  if (ROW_KERNEL !== null && Number.isInteger(stepX) && Number.isInteger(stepY))
    return wholeCellMeans(ROW_KERNEL, source, tables, stepX, stepY);
  const bordersX = cellBorders(columns, stepX);
  const bordersY = cellBorders(raster.height, stepY);
  const width = bordersX.length;
  const height = bordersY.length;
  const planeR = new Float32Array(width * height);
  const planeG = new Float32Array(width * height);
  const planeB = new Float32Array(width * height);

  // One row of full pixels, summed along x; and one row of cells as it fills.
  const rowR = new Float64Array(width);
  const rowG = new Float64Array(width);
  const rowB = new Float64Array(width);
  const cellR = new Float64Array(width);
  const cellG = new Float64Array(width);
  const cellB = new Float64Array(width);
  const sums: RowSums = [rowR, rowG, rowB];

  const rowsUsed = height === 0 ? 0 : Math.ceil(bordersY[height - 1]);
  let data = source.rows(0, 1);
  let bandEnd = 0;
  for (let y = 0, row = 0, bandStart = 0; y < rowsUsed; y++) {
    if (y === bandEnd) {
      bandStart = y;
      bandEnd = Math.min(raster.height, y + BAND_ROWS);
      data = source.rows(bandStart, bandEnd - bandStart);
    }
    const start = 3 * (y - bandStart) * columns;
    const border = bordersY[row];
    const above = Math.min(1, border - y);
    sumRow(data, start, bordersX, tables, sums);
    for (let column = 0; column < width; column++) {
      cellR[column] += above * rowR[column];
      cellG[column] += above * rowG[column];
      cellB[column] += above * rowB[column];
    }
    if (y + 1 < border) continue;
    const cellHeight = border - (row === 0 ? 0 : bordersY[row - 1]);
    const below = 1 - above;
    for (let column = 0, at = row * width; column < width; column++, at++) {
      const area = cellHeight * (bordersX[column] - (column === 0 ? 0 : bordersX[column - 1]));
      planeR[at] = cellR[column] / area;
      planeG[at] = cellG[column] / area;
      planeB[at] = cellB[column] / area;
      // Not 0 times NaN, which is NaN.
      cellR[column] = below === 0 ? 0 : below * rowR[column];
      cellG[column] = below === 0 ? 0 : below * rowG[column];
      cellB[column] = below === 0 ? 0 : below * rowB[column];
    }
    row++;
  }
  return { width, height, stepX, stepY, channels: [planeR, planeG, planeB] };
}

/** Sums of R, G and B over the part of one row of full pixels that lies in each cell. */
type RowSums = readonly [Float64Array, Float64Array, Float64Array];

/** The part of a row of full pixels that lies in each cell. A pixel on a border is shared out. */
function sumRow(
  data: Raster["data"],
  start: number,
  borders: Float64Array,
  [tableR, tableG, tableB]: ChannelTables,
  [rowR, rowG, rowB]: RowSums,
): void {
  let i = start;
  let r = 0;
  let g = 0;
  let b = 0;
  for (let column = 0; column < borders.length; column++) {
    const border = borders[column];
    const wholePixels = Math.floor(border);
    const stop = start + 3 * wholePixels;
    for (; i < stop; i += 3) {
      r += tableR[data[i]];
      g += tableG[data[i + 1]];
      b += tableB[data[i + 2]];
    }
    const share = border - wholePixels;
    if (share === 0) {
      rowR[column] = r;
      rowG[column] = g;
      rowB[column] = b;
      r = g = b = 0;
      continue;
    }
    const splitR = tableR[data[i]];
    const splitG = tableG[data[i + 1]];
    const splitB = tableB[data[i + 2]];
    rowR[column] = r + share * splitR;
    rowG[column] = g + share * splitG;
    rowB[column] = b + share * splitB;
    r = (1 - share) * splitR;
    g = (1 - share) * splitG;
    b = (1 - share) * splitB;
    i += 3;
  }
}
