import type { JarReading } from "./jarReading.ts";
import type { JarPhoto } from "./optics/linearPhoto.ts";
import type { Card } from "../card/card.ts";
import { DEFAULT_CARD_NAME } from "../card/cards.ts";
import { loadCard } from "../card/loadCard.ts";
import type { Warning } from "../errors.ts";
import { refuseSamePicture } from "../raster/refuseSamePicture.ts";
import { rowSource } from "../raster/rowSource.ts";
import { samePicture } from "../raster/samePicture.ts";
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
  for (const { photo } of spent) refuseBlankItself("spent bath", photo, blank.photo);
  const series =
    files.turbiditySeries === undefined
      ? null
      : await openSeries(files.turbiditySeries, blank.photo, geometry, card);
  const readings = measureSeries(
    spent.map(({ photo }) => photo),
    blank.photo,
    geometry,
    series ?? {},
  );
  return {
    readings,
    tie: series?.tie ?? null,
    warnings: [blank, ...spent].flatMap(({ warnings }) => warnings),
  };
}

function refuseBlankItself(role: string, { file, raster }: JarPhoto, blank: JarPhoto): void {
  refuseSamePicture(
    { role: "the blank", file: blank.file, pixels: rowSource(blank.raster) },
    { role: `the ${role}`, file, pixels: rowSource(raster) },
    "Give two photos: one of fresh bath of the same age as the blank, one of the bath itself.",
  );
}

/** The user's own dilutions, tied; `clear` is their blank where they have one that isn't the blank of the baths. */
async function openSeries(
  file: string,
  blank: JarPhoto,
  geometry: Station | JarShape,
  card: Card,
): Promise<{ readonly tie: TurbidityTie; readonly clear?: JarPhoto }> {
  const series = await readTurbiditySeries(file);
  const photos = await Promise.all(
    series.points.map(async ({ file: photo, strength }) => ({
      photo: (await openJarPhoto(photo, card)).photo,
      strength,
    })),
  );
  const own = series.blank === null ? null : (await openJarPhoto(series.blank, card)).photo;
  for (const { photo, strength } of photos)
    refuseBlankItself(`dilution of strength ${String(strength)}`, photo, own ?? blank);
  const tie = tieFromPhotos(photos, own ?? blank, geometry, series.unit, file);
  if (own === null || samePicture(rowSource(own.raster), rowSource(blank.raster))) return { tie };
  return { tie, clear: own };
}
