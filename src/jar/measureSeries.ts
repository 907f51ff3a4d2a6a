import type { JarPhoto } from "./optics/linearPhoto.ts";
import { LastrinseError } from "../errors.ts";
import { fnuOf } from "./turbidity/fnuOf.ts";
import { fnuSigma } from "./turbidity/fnuSigma.ts";
import { locateBacking } from "./place/locateBacking.ts";
import { locateLiquid } from "./place/locateLiquid.ts";
import { linearPhoto, type LinearPhoto } from "./optics/linearPhoto.ts";
import { measureAgainstBlank } from "./measureAgainstBlank.ts";
import type { JarReading } from "./measureJar.ts";
import { type BlankReading, readBlank } from "./readBlank.ts";
import type { JarShape, Station } from "./place/station.ts";
import { straightenBacking } from "./place/straightenBacking.ts";
import { type StripeMap, stripeMap } from "./place/stripeMap.ts";
import type { TurbidityTie } from "../results/jarResult.ts";

/**
 * Lens distortion bends the stripes of the straightened sheet a little; blank and bath share it. In millimetres.
 */
const STRAIGHT_TOLERANCE_MM = 1;

export interface SeriesOptions {
  /** From the user's own dilutions; without it the turbidity has no unit. */
  readonly tie?: TurbidityTie | undefined;
}

/**
 * Absorbance and turbidity of spent baths from their photos, in bath order, against one blank.
 * @param geometry A station, or the jar's shape: then the printed backing is found in each photo by itself.
 * @throws {LastrinseError} `station-not-found`, `station-moved`, `overexposed` for the first photo that can't be trusted: never a
 * number instead.
 */
export function measureSeries(
  samples: readonly JarPhoto[],
  blank: JarPhoto,
  geometry: Station | JarShape,
  { tie }: SeriesOptions = {},
): JarReading[] {
  const readings =
    "liquidBox" in geometry
      ? atStation(samples, blank, geometry)
      : beforeBacking(samples, blank, geometry);
  return tie === undefined
    ? readings
    : readings.map((reading) => ({
        ...reading,
        turbidityFnu: fnuOf(tie, reading.turbidityIndexPerCm),
        turbidityFnuSigma: fnuSigma(tie, reading.turbidityIndexPerCm, reading.turbidityIndexSigma),
        turbidityBeyondRange:
          reading.turbidityBeyondRange || reading.turbidityIndexPerCm > tie.largestIndex,
      }));
}

function atStation(samples: readonly JarPhoto[], blank: JarPhoto, station: Station): JarReading[] {
  for (const sample of samples) requireSameSize(sample, blank);
  const blankReading = readBlank(linearPhoto(blank), station);
  return samples.map((sample) => measureAgainstBlank(linearPhoto(sample), blankReading, station));
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
