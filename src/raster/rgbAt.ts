import type { ChannelTables } from "./channelTables.ts";
import { linearPlanes } from "./linearPlanes.ts";
import type { Raster } from "./raster.ts";
import type { RowSource } from "./rowSource.ts";
import { sparseRows } from "./sparseRows.ts";

/** A reduced picture for finding things, not for measuring: 8-bit code values. */
export interface RgbImage {
  /** Interleaved R G B, row-major. */
  readonly pixels: Uint8Array;
  readonly width: number;
  readonly height: number;
  /** Full pixels a reduced pixel, along x and y: X = (x + 0.5) step - 0.5. At least 1. */
  readonly step: number;
}

/** Of pictures with so many pixels, cells of at least so many a side are averaged over every third row. */
const SPARSE_PIXELS = 20e6;
const SPARSE_STEP = 9;
const SPARSE_ROWS = 3;

/** Code values on the scale of 8 bit. */
function byteTables(bitDepth: 8 | 16): ChannelTables {
  const scale = 255 / (2 ** bitDepth - 1);
  const table = Float32Array.from({ length: 2 ** bitDepth }, (_, code) => code * scale);
  return [table, table, table];
}

/**
 * A raster reduced so that its long side has about `longSide` pixels: area means of code values. Never enlarged.
 * @param longSide Pixels, at least 1.
 * @throws {RangeError} `longSide` is below 1.
 */
export function rgbAt(raster: Raster | RowSource, longSide: number): RgbImage {
  if (!(longSide >= 1)) throw new RangeError(`Expected a long side from 1, received ${longSide}.`);
  const { width: fullWidth, height: fullHeight, bitDepth } = raster;
  // A strip thinner than a step would vanish.
  const step = Math.min(
    Math.max(1, Math.max(fullWidth, fullHeight) / longSide),
    fullWidth,
    fullHeight,
  );
  const many = fullWidth * fullHeight >= SPARSE_PIXELS && step >= SPARSE_STEP;
  const every = many ? SPARSE_ROWS : 1;
  const rows = sparseRows(raster, every);
  const tables = byteTables(bitDepth);
  const { width, height, channels } = linearPlanes(rows, tables, step, step / every);
  const [r, g, b] = channels;
  const pixels = new Uint8Array(3 * width * height);
  for (let i = 0, at = 0; i < r.length; i++, at += 3) {
    pixels[at] = r[i] + 0.5;
    pixels[at + 1] = g[i] + 0.5;
    pixels[at + 2] = b[i] + 0.5;
  }
  return { pixels, width, height, step };
}
