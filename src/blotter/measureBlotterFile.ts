import { chooseCorrection } from "../calibrate/chooseCorrection.ts";
import type { Card } from "../card/card.ts";
import { cardOutline } from "../card/cardOutline.ts";
import { findCard } from "../card/findCard.ts";
import { samplePatches } from "../card/samplePatches.ts";
import { readScan } from "../raster/readScan.ts";
import { type BlotterBoxes, type BlotterReading, measureBlotter } from "./measureBlotter.ts";

/**
 * Reads a photo of a blotter test with the card in it.
 * @param boxes Where the two spots are, in pixels; null: they are looked for.
 * @throws {LastrinseError} An unreadable file, `card-not-found`, `card-untrusted`, and as {@link measureBlotter}.
 */
export async function measureBlotterFile(
  file: string,
  card: Card,
  boxes: BlotterBoxes | null = null,
): Promise<BlotterReading> {
  const { raster } = await readScan(file);
  const placed = await findCard(raster, card, file);
  const choice = chooseCorrection([{ samples: samplePatches(raster, card, placed), file }], card);
  const { correction } = choice.frames[0];
  return measureBlotter(raster, correction, boxes, cardOutline(placed, card), file);
}
