import type { Point } from "../numeric/point.ts";
import { basename } from "node:path";
import type { Card, PatchSample, PlacedCard } from "../card/card.ts";
import { cardOutline } from "../card/cardOutline.ts";
import { findCard } from "../card/findCard.ts";
import { MATCH_ACCEPTED } from "../card/matchResidual.ts";
import type { Corners } from "../card/parseCorners.ts";
import { placeCard } from "../card/placeCard.ts";
import { samplePatches } from "../card/samplePatches.ts";
import type { Warning } from "../errors.ts";
import type { ScanInfo } from "../raster/raster.ts";
import { openScan } from "../raster/openScan.ts";
import type { StoredPicture } from "../raster/storePicture.ts";

export interface FrameRequest {
  readonly file: string;
  /** Page of a multi-page file, from 1. */
  readonly page?: number | undefined;
  readonly card: Card;
  /** Centres of the four corner patches, where given by hand. */
  readonly corners?: Corners | undefined;
  /** A scan of the card alone under the same settings, for a bed too small for sheet and card. */
  readonly cardScan?: string | undefined;
  readonly strict: boolean;
}

/** A scan with the card that goes with it. */
export interface Frame {
  readonly info: ScanInfo;
  /** To be released by whoever opened the frame. */
  readonly pixels: StoredPicture;
  readonly placed: PlacedCard;
  readonly samples: readonly PatchSample[];
  /** Outline of the card in the scan, with its border; null where the card was scanned alone. */
  readonly cardOutline: readonly Point[] | null;
  readonly warnings: readonly Warning[];
}

function doubtful(placed: PlacedCard, file: string): Warning[] {
  if (placed.matchResidual <= MATCH_ACCEPTED) return [];
  return [
    {
      code: "card-doubtful",
      message: `The card in ${basename(file)} fits badly (residual ${placed.matchResidual.toFixed(1)}, good up to ${String(MATCH_ACCEPTED)}): check its place, or give the corner patches by hand.`,
    },
  ];
}

/**
 * Reads one scan, and finds its card there or in the scan of the card alone.
 * @throws {LastrinseError} Unreadable file, card not found.
 */
export async function openFrame(request: FrameRequest): Promise<Frame> {
  const { file, card, corners, cardScan, strict } = request;
  const scan = await openScan(file, { page: request.page, strict });
  try {
    const cardFile = cardScan ?? file;
    const alone = cardScan === undefined ? null : await openScan(cardScan, { strict });
    const cardPixels = alone?.pixels ?? scan.pixels;
    try {
      const placed =
        corners === undefined
          ? await findCard(cardPixels, card, cardFile)
          : placeCard(cardPixels, card, corners, cardFile);
      return {
        info: scan.info,
        pixels: scan.pixels,
        placed,
        samples: samplePatches(cardPixels, card, placed),
        cardOutline: cardScan === undefined ? cardOutline(placed, card) : null,
        warnings: [
          ...[...scan.warnings, ...(alone?.warnings ?? [])].filter(({ code }) => code !== "no-dpi"),
          ...doubtful(placed, cardFile),
        ],
      };
    } finally {
      alone?.pixels.release();
    }
  } catch (error) {
    scan.pixels.release();
    throw error;
  }
}
