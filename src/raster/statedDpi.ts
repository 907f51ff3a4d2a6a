import type { Metadata } from "sharp";
import type { TiffDirectory } from "./tiffDirectory.ts";

/** What writers put down when they know nothing, and what the decoder reports when nothing is put down. */
const DEFAULT_DPI = 72;

/** Below: an aspect ratio or a slip of units. Above: finer than any flatbed offers, even interpolated. */
const LOWEST_DPI = 30;
const HIGHEST_DPI = 19200;

/** Resolutions along x and y further apart than this belong to no square pixel. */
const SQUARE_TOLERANCE = 0.01;

const TAG_X_RESOLUTION = 282;
const TAG_Y_RESOLUTION = 283;
const TAG_RESOLUTION_UNIT = 296;
const UNIT_NONE = 1;

/**
 * The resolution a file states.
 * @param directory The page's directory of a TIFF, if it is one: the decoder takes ratios without unit for pixels per mm.
 * @returns Pixels per inch; null where there is none, the meaningless default of 72, or nonsense.
 */
export function statedDpi(metadata: Metadata, directory: TiffDirectory | null): number | null {
  const { density } = metadata;
  if (density === undefined || density === DEFAULT_DPI) return null;
  if (!(density >= LOWEST_DPI && density <= HIGHEST_DPI)) return null;
  if (directory !== null) {
    if (directory.get(TAG_RESOLUTION_UNIT)?.[0] === UNIT_NONE) return null;
    const x = Number(directory.get(TAG_X_RESOLUTION)?.[0]);
    const y = Number(directory.get(TAG_Y_RESOLUTION)?.[0] ?? x);
    if (!(Math.abs(x - y) <= SQUARE_TOLERANCE * x)) return null;
  }
  return density;
}
