import type { Warning } from "../errors.ts";
import { greyOf } from "../raster/greyOf.ts";
import { resizeGrey } from "../raster/resizeGrey.ts";
import type { RowSource } from "../raster/rowSource.ts";
import type { Point } from "../numeric/point.ts";
import { DPI_TOLERANCE, PASSES } from "../register/passes.ts";
import { type GreySheet, seekFeatures } from "../register/greySheet.ts";
import type { RegisterOptions } from "../register/registerSheets.ts";
import { registerApart, type SoughtSheet } from "../register/registerApart.ts";
import type { Registration } from "../register/registration.ts";
import type { Frame } from "./openFrame.ts";
import type { RegistrationReport } from "../results/compareResult.ts";
import type { PairScale } from "./scaleOfPair.ts";

export interface RegisteredFrames {
  readonly map: Registration;
  readonly report: Omit<RegistrationReport, "selfConsistencyDeltaE00" | "measuredShare">;
  readonly warnings: readonly Warning[];
}

/** Registration never asks for more. */
const FINEST_DPI = Math.max(...PASSES.map(({ dpi }) => dpi));

/**
 * Grey at the finest size that is needed, or a little above it. Whole blocks of pixels are averaged as they are read; the full
 * grey is only held where no whole block fits.
 */
async function finestGrey(pixels: RowSource, dpi: number): Promise<GreySheet> {
  const block = Math.max(1, Math.floor((dpi / FINEST_DPI) * (1 + DPI_TOLERANCE)));
  const grey = greyOf(pixels, block);
  // A rest of less than a block belongs to no pixel of the grey.
  const widthPixels = block * grey.width;
  const heightPixels = block * grey.height;
  const share = (block * FINEST_DPI) / dpi;
  const finest =
    share > 1 - DPI_TOLERANCE
      ? grey
      : await resizeGrey(
          grey,
          Math.max(1, Math.round(grey.width * share)),
          Math.max(1, Math.round(grey.height * share)),
        );
  return { widthPixels, heightPixels, dpi, finest };
}

async function soughtSheet(pixels: RowSource, dpi: number): Promise<SoughtSheet> {
  const sheet = await finestGrey(pixels, dpi);
  const { found } = await seekFeatures(sheet);
  return { sheet, features: found };
}

/** What registration needs of a pair: its key points are being sought. */
export type SheetPair = readonly [SoughtSheet, SoughtSheet];

/** Prepares the registration, so that other threads are busy with it while the inks are found. */
export async function sheetPair(before: Frame, after: Frame, scale: PairScale): Promise<SheetPair> {
  return Promise.all([
    soughtSheet(before.pixels, scale.before),
    soughtSheet(after.pixels, scale.after),
  ]);
}

/** Lays the after frame over the before frame. @param sheetOutline In the before frame; null where it may fill it. */
export async function registerFrames(
  before: Frame,
  after: Frame,
  sheets: SheetPair,
  sheetOutline: readonly Point[] | null,
  how: Pick<RegisterOptions, "seed" | "workers" | "onProgress">,
): Promise<RegisteredFrames> {
  const registration = await registerApart(...sheets, {
    sheetOutline: sheetOutline ?? undefined,
    excludedBefore: before.cardOutline === null ? [] : [before.cardOutline],
    excludedAfter: after.cardOutline === null ? [] : [after.cardOutline],
    ...how,
    input: after.info.file,
  });
  const { inliers, scaleX, scaleY, rotationDegrees, residualP95Pixels, maskedShare } = registration;
  return {
    map: registration,
    report: {
      accepted: true,
      inliers,
      scaleX,
      scaleY,
      rotationDegrees,
      residualP95Pixels,
      maskedShare,
      points: registration.trustedPoints,
    },
    warnings: registration.warnings,
  };
}
