import type { JarReading } from "../../src/jar/jarReading.ts";
import type { JarPhoto } from "../../src/jar/optics/linearPhoto.ts";
import { measureSeries, type SeriesOptions } from "../../src/jar/measureSeries.ts";
import type { JarShape, Station } from "../../src/jar/place/station.ts";

/** One photo of spent bath against its blank: see {@link measureSeries}. */
export function measureJar(
  sample: JarPhoto,
  blank: JarPhoto,
  geometry: Station | JarShape,
  options: SeriesOptions = {},
): JarReading {
  return measureSeries([sample], blank, geometry, options)[0];
}
