import type { JarReading } from "./jarReading.ts";
import { type JarPhoto, linearPhoto, type LinearPhoto } from "./optics/linearPhoto.ts";
import { LastrinseError } from "../errors.ts";
import { locateBacking } from "./place/locateBacking.ts";
import { locateLiquid } from "./place/locateLiquid.ts";
import { measureAgainstBlank } from "./measureAgainstBlank.ts";
import { type BlankReading, readBlank } from "./readBlank.ts";
import type { JarShape, Station } from "./place/station.ts";
import { straightenBacking } from "./place/straightenBacking.ts";
import { type StripeMap, stripeMap } from "./place/stripeMap.ts";
import { type AgainstClear, readOnSeries } from "./readOnSeries.ts";
import { turnedOver } from "../raster/turnedOver.ts";
import type { TurbidityTie } from "../results/jarResult.ts";

/**
 * Lens distortion bends the stripes of the straightened sheet a little; blank and bath share it. In millimetres.
 */
const STRAIGHT_TOLERANCE_MM = 1;

/** What is thrown where a photo doesn't show its station. */
const STATION_LOST: ReadonlySet<string> = new Set(["station-not-found", "station-moved"]);

export interface SeriesOptions {
  /** From the user's own dilutions; without it the turbidity has no unit. */
  readonly tie?: TurbidityTie | undefined;
  /** The clear blank of those dilutions; without it the blank of the baths stands for clear. */
  readonly clear?: JarPhoto | undefined;
}

/**
 * Absorbance and turbidity of spent baths from their photos, in bath order, against one blank.
 * @param geometry A station, or the jar's shape: then the printed backing is found in each photo by itself.
 * @throws {LastrinseError} `station-not-found`, `station-moved`, `overexposed`, `blank-darker` for the first photo that can't be trusted: never a
 * number instead.
 */
export function measureSeries(
  samples: readonly JarPhoto[],
  blank: JarPhoto,
  geometry: Station | JarShape,
  { tie, clear }: SeriesOptions = {},
): JarReading[] {
  const read = (photos: readonly JarPhoto[], first: JarPhoto): JarReading[] =>
    "liquidBox" in geometry
      ? atStation(photos, first, geometry)
      : beforeBacking(photos, first, geometry);
  const readings = read(samples, blank);
  if (tie === undefined) return readings;
  const against = clear === undefined ? null : againstClear(samples, blank, (all) => read(all, clear)); // prettier-ignore
  return readings.map((reading, i) =>
    readOnSeries(reading, blank.file, tie, against === null ? null : against[i]),
  );
}

/** Each bath and the blank against the clear blank of a series; "unread" where a photo doesn't bear that. */
function againstClear(
  samples: readonly JarPhoto[],
  blank: JarPhoto,
  read: (photos: readonly JarPhoto[]) => JarReading[],
): (AgainstClear | "unread")[] {
  const orUnread = (photo: JarPhoto): JarReading | null => {
    try {
      return read([photo])[0];
    } catch (error) {
      if (error instanceof LastrinseError) return null;
      throw error;
    }
  };
  const ofBlank = orUnread(blank);
  return samples.map((sample) => {
    const bath = ofBlank === null ? null : orUnread(sample);
    return bath === null || ofBlank === null ? "unread" : { bath, blank: ofBlank };
  });
}

function atStation(samples: readonly JarPhoto[], blank: JarPhoto, station: Station): JarReading[] {
  for (const sample of samples) requireSameSize(sample, blank);
  const blankReading = upright(blank, (photo) => readBlank(linearPhoto(photo), station));
  return samples.map((sample) =>
    upright(sample, (photo) => measureAgainstBlank(linearPhoto(photo), blankReading, station)),
  );
}

/**
 * Reads a photo at a station. Where its stripes are not found, but are in the photo turned by half a turn, that is said.
 * @throws {LastrinseError} What `read` throws.
 */
function upright<T>(photo: JarPhoto, read: (photo: JarPhoto) => T): T {
  try {
    return read(photo);
  } catch (error) {
    if (!(error instanceof LastrinseError) || !STATION_LOST.has(error.code)) throw error;
    try {
      read({ ...photo, raster: turnedOver(photo.raster) });
    } catch {
      throw error;
    }
    throw new LastrinseError(
      "station-not-found",
      `Expected the jar upright in ${photo.file}, received a photo that is upside down: turned by 180 degrees, the station is there.`,
      {
        remedy: "Turn the picture upright and save it, or photograph again.",
        input: photo.file,
        cause: error,
      },
    );
  }
}

/** A station is boxes in pixels: it fits photos of one size, taken the same way up. */
function requireSameSize({ file, raster }: JarPhoto, blank: JarPhoto): void {
  const { width, height } = blank.raster;
  if (raster.width === width && raster.height === height) return;
  throw new LastrinseError(
    "station-moved",
    `Expected a photo of ${width} x ${height} pixels like the blank, received ${raster.width} x ${raster.height} in ${file}.`,
    {
      remedy:
        "Take blank and bath with the same camera settings and the same way up, without cropping.",
      input: file,
    },
  );
}

interface BackedPhoto {
  /** The straightened backing instead of the photo. */
  readonly photo: LinearPhoto;
  readonly pixelsPerMm: number;
  readonly map: StripeMap;
}

function beforeBacking(
  samples: readonly JarPhoto[],
  blank: JarPhoto,
  shape: JarShape,
): JarReading[] {
  const backing = locateBacking(blank.raster, blank.file);
  const backed = (photo: JarPhoto): BackedPhoto => {
    // All photos of a series at the blank's scale, so that one station fits them.
    const found = photo === blank ? backing : locateBacking(photo.raster, photo.file);
    const straight = straightenBacking(photo.raster, found, backing.pixelsPerMm);
    const linear = linearPhoto({ ...photo, raster: straight.raster });
    return {
      photo: linear,
      pixelsPerMm: straight.pixelsPerMm,
      map: stripeMap(straight, linear.table),
    };
  };
  const backedBlank = backed(blank);
  const { pixelsPerMm } = backedBlank;
  // The liquid is found anew in each pair, but mostly in the same place: one reading of the blank then serves.
  const blanks = new Map<string, BlankReading>();
  return samples.map((sample) => {
    const { photo, map } = backed(sample);
    const station = locateLiquid(backedBlank.map, map, pixelsPerMm, shape, sample.file);
    const key = JSON.stringify(station);
    const reading =
      blanks.get(key) ?? readBlank(backedBlank.photo, station, STRAIGHT_TOLERANCE_MM * pixelsPerMm);
    blanks.set(key, reading);
    return measureAgainstBlank(photo, reading, station);
  });
}
