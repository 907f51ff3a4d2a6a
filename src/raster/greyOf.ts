import type { GreyImage } from "../vision/features.ts";
import { sharedBytes } from "../numeric/shared.ts";
import { ROW_KERNEL } from "./kernel/rowKernel.ts";
import type { Raster } from "./raster.ts";
import { rowSource, type RowSource } from "./rowSource.ts";

/** Shares of R, G and B in the grey of code values that registration works on. */
const SHARE_R = 0.3;
const SHARE_G = 0.55;
const SHARE_B = 0.15;

/** Code values of 16 bit a code value of 8 bit. */
const WORDS_A_BYTE = 257;

/** Bytes of rows read at a time, about. */
const BAND_BYTES = 1e6;

/**
 * Grey of a raster: 0.30 R + 0.55 G + 0.15 B of code values, 8 bit, rounded. Not a lightness.
 * @param block Side of the square blocks that are averaged, in whole pixels. Default 1: full size. Whole blocks only, from the
 *   top left: a rest at the right and the bottom is left off.
 */
export function greyOf(raster: Raster | RowSource, block: number = 1): GreyImage {
  const source = rowSource(raster);
  const width = Math.floor(raster.width / block);
  const height = Math.floor(raster.height / block);
  const scale = (raster.bitDepth === 8 ? 1 : 1 / WORDS_A_BYTE) / (block * block);
  const shares = [SHARE_R * scale, SHARE_G * scale, SHARE_B * scale] as const;
  const rowBytes = (3 * raster.width * raster.bitDepth) / 8;
  const bandRows = Math.max(1, Math.floor(BAND_BYTES / rowBytes / block));
  const adder = rowAdder(raster, width, block, bandRows * block * rowBytes, shares);
  const pixels = sharedBytes(width * height);
  for (let first = 0; first < height; first += bandRows) {
    const last = Math.min(height, first + bandRows);
    adder.take(source.rows(first * block, (last - first) * block));
    for (let row = first; row < last; row++) {
      // Half a code: what follows is cut to whole ones.
      adder.sums.fill(0.5);
      for (let y = (row - first) * block; y < (row - first + 1) * block; y++) adder.add(y);
      pixels.set(adder.sums, row * width);
    }
  }
  return { pixels, width, height };
}

/** Adds rows of a band to the sums of a row of blocks. */
interface RowAdder {
  readonly sums: Float64Array;
  readonly take: (band: Raster["data"]) => void;
  readonly add: (row: number) => void;
}

/** By the compiled kernel, or by the same sums in the same order where there is none. */
function rowAdder(
  { width: columns, bitDepth }: Raster | RowSource,
  width: number,
  block: number,
  bandBytes: number,
  [shareR, shareG, shareB]: readonly [number, number, number],
): RowAdder {
  if (ROW_KERNEL !== null) {
    const { addGrey } = ROW_KERNEL;
    const dataAt = 8 * width;
    const memory = ROW_KERNEL.reserve(dataAt + bandBytes);
    const rowBytes = (3 * columns * bitDepth) / 8;
    return {
      sums: new Float64Array(memory, 0, width),
      take: (band) => {
        new Uint8Array(memory, dataAt).set(
          new Uint8Array(band.buffer, band.byteOffset, band.byteLength),
        );
      },
      add: (row) => {
        addGrey(bitDepth, dataAt + row * rowBytes, 0, width, block, shareR, shareG, shareB);
      },
    };
  }
  const sums = new Float64Array(width);
  let data: Raster["data"];
  return {
    sums,
    take: (band) => (data = band),
    add: (row) => {
      for (let x = 0, at = 3 * row * columns; x < width; x++) {
        let grey = 0;
        for (const stop = at + 3 * block; at < stop; at += 3)
          grey += shareR * data[at] + shareG * data[at + 1] + shareB * data[at + 2];
        sums[x] += grey;
      }
    },
  };
}
