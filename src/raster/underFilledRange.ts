import { basename } from "node:path";
import type { Warning } from "../errors.ts";
import type { Raster } from "./raster.ts";

/** The largest 8-bit code: words that never pass it hold 8-bit values. */
const LARGEST_BYTE = 255;

/** The largest value of 12 bits: a white patch can't be so dark, but dark pictures could be; they are not rescaled. */
const LARGEST_TWELVE_BITS = 4095;

/** The largest code value, or the first found that is above `enough`. */
function largestCode(data: Uint16Array, enough: number): number {
  let largest = 0;
  for (let i = 0; i < data.length && largest <= enough; i++)
    if (data[i] > largest) largest = data[i];
  return largest;
}

/**
 * Looks for 16-bit files whose words hold values of fewer bits, which would measure as black.
 * @returns The raster to measure, and a warning `under-filled-range` or null. 8-bit values in 16-bit words come back as an
 *   8-bit raster of those values; others as they are.
 */
export function underFilledRange(
  raster: Raster,
  file: string,
): { readonly raster: Raster; readonly warning: Warning | null } {
  const { data } = raster;
  if (!(data instanceof Uint16Array)) return { raster, warning: null };
  const largest = largestCode(data, LARGEST_TWELVE_BITS);
  if (largest > LARGEST_TWELVE_BITS) return { raster, warning: null };
  const bytes = largest <= LARGEST_BYTE;
  const reading = bytes ? "read as 8-bit values" : "read as they are, very dark";
  return {
    raster: bytes ? { ...raster, bitDepth: 8, data: Uint8Array.from(data) } : raster,
    warning: {
      code: "under-filled-range",
      message: `The 16-bit values of ${basename(file)} reach only ${largest} of 65535: ${reading}. Check the program that wrote it.`,
    },
  };
}
