import type { GreyImage } from "../vision/features.ts";
import { greyOf } from "./greyOf.ts";
import type { Raster } from "./raster.ts";
import { resizeGrey } from "./resizeGrey.ts";

/**
 * The grey picture of a raster at a size, for registration: `greyOf`, then `resizeGrey`. Who needs several sizes of a large
 * raster calls those two and keeps the grey.
 */
export function greyAt(raster: Raster, width: number, height: number): Promise<GreyImage> {
  return resizeGrey(greyOf(raster), width, height);
}
