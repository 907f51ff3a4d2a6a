import type { JarPhoto } from "./optics/linearPhoto.ts";
import { measureSeries } from "./measureSeries.ts";
import type { JarShape, Station } from "./place/station.ts";
import type { TurbidityTie } from "../results/jarResult.ts";
import { tieTurbidity } from "./turbidity/tieTurbidity.ts";

/**
 * Measures the photos of a dilution series against their blank and ties the turbidity index to their strengths.
 * @param points Dilutions without the blank.
 * @param unit What the strengths are.
 * @param file The series, for messages.
 * @throws {LastrinseError} As for measuring and for tying.
 */
export function tieFromPhotos(
  points: readonly { readonly photo: JarPhoto; readonly strength: number }[],
  blank: JarPhoto,
  geometry: Station | JarShape,
  unit: "FNU" | "relative",
  file?: string,
): TurbidityTie {
  const readings = measureSeries(
    points.map((point) => point.photo),
    blank,
    geometry,
  );
  return tieTurbidity(
    points.map(({ strength }, i) => ({ strength, indexPerCm: readings[i].turbidityIndexPerCm })),
    unit,
    file,
  );
}
