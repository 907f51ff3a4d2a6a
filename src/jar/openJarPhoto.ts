import type { JarPhoto } from "./optics/linearPhoto.ts";
import type { Card, PlacedCard } from "../card/card.ts";
import { findCard } from "../card/findCard.ts";
import type { Corners } from "../card/parseCorners.ts";
import { placeCard } from "../card/placeCard.ts";
import { samplePatches } from "../card/samplePatches.ts";
import { LastrinseError, type Warning } from "../errors.ts";
import type { Raster, ScanInfo } from "../raster/raster.ts";
import { readScan } from "../raster/readScan.ts";
import { greysOfCard } from "./optics/greysOfCard.ts";

export interface OpenedJarPhoto {
  readonly photo: JarPhoto;
  readonly info: ScanInfo;
  /** Where the card is; null where none was found. */
  readonly card: PlacedCard | null;
  /** Of reading the file; that no card was found is warned by the measurement. */
  readonly warnings: readonly Warning[];
}

/** Warnings of a scan that mean nothing in a photo. */
const SCAN_ONLY = new Set(["no-dpi", "no-profile"]);

/**
 * Reads a photo of the jar and the greys of the card in it.
 * @param corners Where the card should be: of the station file, or of the blank. Tried first, since the station does not move.
 * @throws {LastrinseError} As `readScan`. A card that is not found is no error: the tone curve is then taken on trust.
 */
export async function openJarPhoto(
  file: string,
  card: Card,
  corners: Corners | null = null,
): Promise<OpenedJarPhoto> {
  const { raster, info, warnings } = await readScan(file);
  const placed = await placedCard(raster, card, corners, file);
  const greys = placed ? greysOfCard(card, samplePatches(raster, card, placed)) : [];
  return {
    photo: { file, raster, greys },
    info,
    card: placed,
    warnings: warnings.filter((warning) => !SCAN_ONLY.has(warning.code)),
  };
}

async function placedCard(
  raster: Raster,
  card: Card,
  corners: Corners | null,
  file: string,
): Promise<PlacedCard | null> {
  const orNull = (error: unknown): null => {
    if (error instanceof LastrinseError && error.code === "card-not-found") return null;
    throw error;
  };
  if (corners !== null)
    try {
      return placeCard(raster, card, corners, file);
    } catch (error) {
      orNull(error);
    }
  return findCard(raster, card, file).catch(orNull);
}
