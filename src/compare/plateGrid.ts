import type { Correction } from "../calibrate/correction.ts";
import { labOfMean } from "../calibrate/labOfMean.ts";
import { labToXyzD50 } from "../colour/lab.ts";
import type { Planes } from "../grid/planes.ts";
import type { ThreePlanes } from "../grid/threePlanes.ts";
import { cellsOfPlanes, type PlateCells } from "../plates/plateCells.ts";

/** Cells of 1 mm over the sheet, and where they lie in the before scan. */
export interface PlateGrid {
  readonly cells: PlateCells;
  /** Top-left corner of the grid in full pixels of the before scan. */
  readonly originPixels: readonly [x: number, y: number];
  readonly pixelsPerMm: number;
}

/** A cell of 1 mm speaks when this share of it is trusted. */
const TRUSTED_SHARE = 0.5;

/**
 * Means over 1 mm in linear light of both registered frames, over trusted places alone.
 * @param pair `before` and `after`: tone-corrected linear planes on one lattice. `usable`: one a cell of the lattice, non-zero on trusted
 *   places of the sheet. `box`: x, y, width, height of the sheet in cells of the lattice; null = the whole frame.
 */
export function plateGrid(pair: {
  readonly before: Planes;
  readonly after: Planes;
  readonly corrections: readonly [Correction, Correction];
  readonly usable: Uint8Array;
  readonly box: readonly [number, number, number, number] | null;
  readonly mmPerCell: number;
}): PlateGrid {
  const { before, after, corrections, usable, mmPerCell } = pair;
  const [left, top, columns, rows] = pair.box ?? [0, 0, before.width, before.height];
  const width = Math.max(1, Math.ceil(columns * mmPerCell));
  const height = Math.max(1, Math.ceil(rows * mmPerCell));
  const size = width * height;
  const sums = Array.from({ length: 6 }, () => new Float64Array(size));
  const counts = new Float64Array(size);
  const channels = [...before.channels, ...after.channels];
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      const i = (top + row) * before.width + left + column;
      if (usable[i] === 0 || channels.some((channel) => Number.isNaN(channel[i]))) continue;
      const x = Math.floor((column + 0.5) * mmPerCell);
      const cell = Math.floor((row + 0.5) * mmPerCell) * width + x;
      counts[cell]++;
      for (let c = 0; c < 6; c++) sums[c][cell] += channels[c][i];
    }
  const fewest = TRUSTED_SHARE / (mmPerCell * mmPerCell);
  const planes = (frame: 0 | 1): ThreePlanes => {
    const out = [0, 1, 2].map(() => new Float32Array(size).fill(NaN));
    for (let i = 0; i < size; i++) {
      if (counts[i] < fewest) continue;
      const [r, g, b] = [0, 1, 2].map((c) => sums[3 * frame + c][i] / counts[i]);
      labToXyzD50(labOfMean(corrections[frame], [r, g, b])).forEach((value, c) => {
        out[c][i] = value;
      });
    }
    return [out[0], out[1], out[2]];
  };
  return {
    cells: cellsOfPlanes({ width, height, before: planes(0), after: planes(1) }),
    // Edge of a cell, while (0, 0) is the centre of the first pixel.
    originPixels: [left * before.stepX - 0.5, top * before.stepY - 0.5],
    pixelsPerMm: before.stepX / mmPerCell,
  };
}
