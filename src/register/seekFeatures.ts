import { detectFeatures } from "../vision/detectFeatures.ts";
import { frameOf } from "./frame.ts";
import { FEATURE_DPI } from "./sheetFeatures.ts";
import type { SheetImage } from "./sheetImage.ts";
import { workingGrey } from "./workingGrey.ts";

/**
 * Has the key points of a flatbed's frame sought in another thread, so that they are there when it is registered.
 * @returns The image with the search under way, not waited for.
 */
export async function seekFeatures(image: SheetImage): Promise<SheetImage> {
  const { pixels, width, height } = await workingGrey(frameOf(image), FEATURE_DPI);
  const features = detectFeatures({ pixels, width, height });
  // A failure is met where they are used.
  features.catch(() => undefined);
  return { ...image, features };
}
