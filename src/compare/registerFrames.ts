import type { Warning } from "../errors.ts";
import { greyOf } from "../raster/greyOf.ts";
import type { Planes } from "../raster/planes.ts";
import { resizeGrey } from "../raster/resizeGrey.ts";
import type { RowSource } from "../raster/rowSource.ts";
import type { Sheet } from "../regions/findSheet.ts";
import { PASSES } from "../register/passes.ts";
import { type GreySheet, seekFeatures } from "../register/greySheet.ts";
import { registerApart, type SoughtSheet } from "../register/registerApart.ts";
import type { Registration } from "../register/registration.ts";
import type { Frame } from "./openFrame.ts";
import { outlineOfMask } from "./outlineOfMask.ts";
import type { RegistrationReport } from "./result.ts";
import type { PairScale } from "./scaleOfPair.ts";

export interface RegisteredFrames {
  /** null where both files are the same: every place maps onto itself. */
  readonly map: Registration | null;
  readonly report: Omit<RegistrationReport, "selfConsistencyDeltaE00">;
  readonly warnings: readonly Warning[];
}

/** Points reported where nothing had to be registered, along each side of the frame. */
const IDENTITY_POINTS_A_SIDE = 6;

function identity({ info }: Frame): RegisteredFrames {
  const { widthPixels, heightPixels } = info;
  const points = Array.from({ length: IDENTITY_POINTS_A_SIDE ** 2 }, (_, i) => {
    const column = i % IDENTITY_POINTS_A_SIDE;
    const row = Math.floor(i / IDENTITY_POINTS_A_SIDE);
    const place = [
      Math.round(((column + 0.5) / IDENTITY_POINTS_A_SIDE) * widthPixels),
      Math.round(((row + 0.5) / IDENTITY_POINTS_A_SIDE) * heightPixels),
    ] as const;
    return { before: place, after: place };
  });
  return {
    map: null,
    report: {
      accepted: true,
      inliers: points.length,
      scaleX: 1,
      scaleY: 1,
      rotationDegrees: 0,
      residualP95Pixels: 0,
      maskedShare: 0,
      points,
    },
    warnings: [],
  };
}

/** Registration never asks for more. */
const FINEST_DPI = Math.max(...PASSES.map(({ dpi }) => dpi));

/** Reduced once to the finest size that is needed; the coarser ones are made of that, and the full grey is let go. */
async function finestGrey(pixels: RowSource, dpi: number): Promise<GreySheet> {
  const { width: widthPixels, height: heightPixels } = pixels;
  const share = Math.min(1, FINEST_DPI / dpi);
  const finest = await resizeGrey(
    greyOf(pixels),
    Math.max(1, Math.round(widthPixels * share)),
    Math.max(1, Math.round(heightPixels * share)),
  );
  return { widthPixels, heightPixels, dpi, finest };
}

async function soughtSheet(pixels: RowSource, dpi: number): Promise<SoughtSheet> {
  const sheet = await finestGrey(pixels, dpi);
  const { found } = await seekFeatures(sheet);
  return { sheet, features: found };
}

/** What registration needs of a pair: its key points are being sought. null where both files are the same. */
export type SheetPair = readonly [SoughtSheet, SoughtSheet] | null;

/** Prepares the registration, so that other threads are busy with it while the inks are found. */
export async function sheetPair(before: Frame, after: Frame, scale: PairScale): Promise<SheetPair> {
  if (before.info.sha256 === after.info.sha256) return null;
  return Promise.all([
    soughtSheet(before.pixels, scale.before),
    soughtSheet(after.pixels, scale.after),
  ]);
}

/** Lays the after frame over the before frame; the same file twice needs no laying. */
export async function registerFrames(
  before: Frame,
  after: Frame,
  sheets: SheetPair,
  sheet: Sheet,
  lattice: Planes,
  seed: number,
  onProgress: (share: number) => void,
): Promise<RegisteredFrames> {
  if (sheets === null) return identity(before);
  const registration = await registerApart(...sheets, {
    sheetOutline: outlineOfMask(sheet.mask, lattice) ?? undefined,
    excludedBefore: before.cardOutline === null ? [] : [before.cardOutline],
    excludedAfter: after.cardOutline === null ? [] : [after.cardOutline],
    seed,
    input: after.info.file,
    onProgress,
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
