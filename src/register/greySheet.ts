import type { Features, GreyImage } from "../vision/features.ts";
import { resizeGrey } from "../raster/resizeGrey.ts";
import { detectFeatures } from "../vision/detectFeatures.ts";
import { featurePicture } from "./featurePicture.ts";
import { frameOf } from "./sheetFrame.ts";
import type { SheetImage } from "./sheetImage.ts";

/** A flatbed's frame as plain values that another thread can be given. */
export interface GreySheet {
  readonly widthPixels: number;
  readonly heightPixels: number;
  readonly dpi: number;
  /** At the finest size that registration will ask for, or at the frame's own. */
  readonly finest: GreyImage;
}

/**
 * Has the key points of a frame sought in another thread.
 * @returns The search, under way when this is fulfilled.
 */
export async function seekFeatures(sheet: GreySheet): Promise<{ found: Promise<Features> }> {
  const { pixels, width, height } = await featurePicture(frameOf(sheetImageOf(sheet)));
  const found = detectFeatures({ pixels, width, height });
  // A failure is met where they are used.
  found.catch(() => undefined);
  return { found };
}

/** The frame as registration sees it. */
export function sheetImageOf({ finest, ...sheet }: GreySheet, features?: Features): SheetImage {
  return { ...sheet, features, grey: (width, height) => resizeGrey(finest, width, height) };
}
