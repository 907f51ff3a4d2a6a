import type { GreyImage, Features } from "./features.ts";
import { callVision } from "./pool.ts";

/** AKAZE key points and binary descriptors, default settings (Alcantarilla, Nuevo & Bartoli 2013). */
export function detectFeatures(image: GreyImage): Promise<Features> {
  return callVision("detectFeatures", image);
}
