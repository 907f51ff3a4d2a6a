import type { JarPhoto } from "./optics/linearPhoto.ts";
import type { Card } from "../card/card.ts";
import { DEFAULT_CARD_NAME } from "../card/cards.ts";
import { loadCard } from "../card/loadCard.ts";
import type { Warning } from "../errors.ts";
import { type JarReading } from "./measureJar.ts";
import { measureSeries } from "./measureSeries.ts";
import { openJarPhoto } from "./openJarPhoto.ts";
import { readTurbiditySeries } from "./readTurbiditySeries.ts";
import type { JarShape, Station } from "./place/station.ts";
import { tieFromPhotos } from "./tieFromPhotos.ts";
import type { TurbidityTie } from "../results/jarResult.ts";

export interface JarFiles {
  /** Photos of spent baths, in bath order. */
  readonly spent: readonly string[];
  /** The same jar with fresh bath of the same age. */
  readonly blank: string;
  readonly geometry: Station | JarShape;
  /** Default: the station's card, else the usual one. */
  readonly card?: string | undefined;
  /** The user's own dilution series. */
  readonly turbiditySeries?: string | undefined;
}

export interface JarFilesRead {
  readonly readings: readonly JarReading[];
  readonly tie: TurbidityTie | null;
  readonly warnings: readonly Warning[];
}

/**
 * Reads and measures photos of spent baths against one blank.
 * @throws {LastrinseError} An unreadable file, or the first photo that can't be trusted.
 */
export async function measureJarFiles(files: JarFiles): Promise<JarFilesRead> {
  const { geometry } = files;
  const station = "liquidBox" in geometry ? geometry : null;
  const card = await loadCard(files.card ?? station?.card?.name ?? DEFAULT_CARD_NAME);
  const blank = await openJarPhoto(files.blank, card, station?.card?.cornersPixels ?? null);
  const corners = station?.card?.cornersPixels ?? blank.card?.corners ?? null;
  const spent = await Promise.all(files.spent.map((file) => openJarPhoto(file, card, corners)));
  const tie =
    files.turbiditySeries === undefined
      ? null
      : await tieOfSeries(files.turbiditySeries, blank.photo, geometry, card);
  const readings = measureSeries(
    spent.map(({ photo }) => photo),
    blank.photo,
    geometry,
    tie === null ? {} : { tie },
  );
  return {
    readings,
    tie,
    warnings: [blank, ...spent].flatMap(({ warnings }) => warnings),
  };
}

async function tieOfSeries(
  file: string,
  blank: JarPhoto,
  geometry: Station | JarShape,
  card: Card,
): Promise<TurbidityTie> {
  const series = await readTurbiditySeries(file);
  const photos = await Promise.all(
    series.points.map(async ({ file: photo, strength }) => ({
      photo: (await openJarPhoto(photo, card)).photo,
      strength,
    })),
  );
  const own = series.blank === null ? blank : (await openJarPhoto(series.blank, card)).photo;
  return tieFromPhotos(photos, own, geometry, series.unit, file);
}
