import type { JarReading } from "./jarReading.ts";
import type { JarPhoto } from "./optics/linearPhoto.ts";
import { measureSeries, type SeriesOptions } from "./measureSeries.ts";
import type { JarShape, Station } from "./place/station.ts";

/** One photo of spent bath against its blank: see {@link measureSeries}. */
export function measureJar(
  sample: JarPhoto,
  blank: JarPhoto,
  geometry: Station | JarShape,
  options: SeriesOptions = {},
): JarReading {
  return measureSeries([sample], blank, geometry, options)[0];
}
