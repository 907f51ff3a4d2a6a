import { basename } from "node:path";
import type { Warning } from "../errors.ts";
import type { RowSource } from "./rowSource.ts";

/** The largest 8-bit code: words that never pass it hold 8-bit values. */
const LARGEST_BYTE = 255;

/** The largest value of 12 bits: a white patch can't be so dark, but dark pictures could be; they are not rescaled. */
const LARGEST_TWELVE_BITS = 4095;

/** Rows read at a time. */
const BAND_ROWS = 64;

/** The largest code value, or the first found that is above `enough`. */
function largestCode(source: RowSource, enough: number): number {
  let largest = 0;
  for (let first = 0; first < source.height && largest <= enough; first += BAND_ROWS) {
    const data = source.rows(first, Math.min(BAND_ROWS, source.height - first));
    for (let i = 0; i < data.length && largest <= enough; i++)
      if (data[i] > largest) largest = data[i];
  }
  return largest;
}

/**
 * Looks for 16-bit files whose words hold values of fewer bits, which would measure as black.
 * @returns The pixels to measure, and a warning `under-filled-range` or null. 8-bit values in 16-bit words come back as 8-bit
 *   pixels of those values; others as they are.
 */
export function underFilledRange<Source extends RowSource>(
  source: Source,
  file: string,
): { readonly pixels: Source; readonly warning: Warning | null } {
  if (source.bitDepth === 8) return { pixels: source, warning: null };
  const largest = largestCode(source, LARGEST_TWELVE_BITS);
  if (largest > LARGEST_TWELVE_BITS) return { pixels: source, warning: null };
  const bytes = largest <= LARGEST_BYTE;
  const reading = bytes ? "read as 8-bit values" : "read as they are, very dark";
  return {
    pixels: bytes
      ? {
          ...source,
          bitDepth: 8,
          rows: (first: number, count: number) => Uint8Array.from(source.rows(first, count)),
        }
      : source,
    warning: {
      code: "under-filled-range",
      message: `The 16-bit values of ${basename(file)} reach only ${largest} of 65535: ${reading}. Check the program that wrote it.`,
    },
  };
}
