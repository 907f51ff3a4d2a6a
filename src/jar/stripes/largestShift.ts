import type { Station } from "../place/station.ts";

/** The stripes' place may differ by this share of a narrow period; more means that something was moved. */
const LARGEST_SHIFT = 0.12;

/** Without fine stripes: the share of the wide period that the narrow one has on the printed backing. */
const NARROW_SHARE = 0.3;

/** How far the stripes of a station may shift from photo to photo, in pixels. */
export function largestShift(station: Station): number {
  const { wide, narrow } = station.stripes;
  return LARGEST_SHIFT * (narrow?.periodPixels ?? NARROW_SHARE * wide.periodPixels);
}
