import type { LitPhoto } from "../optics/linearPhoto.ts";
import type { Box } from "../../grid/box.ts";
import { LastrinseError } from "../../errors.ts";
import { type LightBox, lightBox } from "../optics/lightBox.ts";
import type { Station } from "../place/station.ts";
import { trimBox } from "../place/trimBox.ts";

/** The boxes of a station in one photo, in linear light. */
export interface StripeBoxes {
  readonly left: LightBox;
  readonly right: LightBox;
  /** Through the jar, margins taken off. */
  readonly wide: LightBox;
  readonly narrow: LightBox | null;
}

/**
 * Cuts the boxes of a station out of a photo.
 * @throws {LastrinseError} `station-not-found` where one leaves the photo.
 */
export function stripeBoxes(photo: LitPhoto, station: Station): StripeBoxes {
  const { wide, narrow, besideLeft, besideRight } = station.stripes;
  return {
    left: boxOf(photo, besideLeft, "left of the jar"),
    right: boxOf(photo, besideRight, "right of the jar"),
    wide: boxOf(photo, trimBox(station, wide), "through the jar"),
    narrow: narrow && boxOf(photo, trimBox(station, narrow), "through the jar"),
  };
}

function boxOf(photo: LitPhoto, box: Box, where: string): LightBox {
  const found = lightBox(photo.raster, box, photo.table);
  if (found === null)
    throw new LastrinseError(
      "station-not-found",
      `Expected a box of stripes ${where} inside ${photo.file} (${photo.raster.width} x ${photo.raster.height} pixels), received one at ${box.map((value) => value.toFixed(0)).join(",")}.`,
      {
        remedy:
          "Use the station file made for photos of this camera and size, or leave it out and photograph the jar in front of the printed backing.",
        input: photo.file,
      },
    );
  return found;
}
