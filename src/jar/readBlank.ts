import type { LinearPhoto } from "./optics/linearPhoto.ts";
import { readBlankStripes } from "./stripes/readBlankStripes.ts";
import { refuseOverexposed } from "./refuseOverexposed.ts";
import type { Station } from "./place/station.ts";
import type { StripeReading } from "./stripes/stripeReading.ts";

/** A blank, read once for a whole series. */
export interface BlankReading {
  readonly photo: LinearPhoto;
  readonly stripes: StripeReading;
}

/**
 * Reads the blank of a set-up.
 * @param tolerance How far stripes may lie from where the station says, pixels. Default: 0.12 of a narrow period.
 * @throws {LastrinseError} `station-not-found`, `station-moved`, `overexposed`.
 */
export function readBlank(photo: LinearPhoto, station: Station, tolerance?: number): BlankReading {
  const stripes = readBlankStripes(photo, station, tolerance);
  refuseOverexposed(photo.file, stripes);
  return { photo, stripes };
}
