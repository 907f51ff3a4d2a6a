import type { Features } from "../vision/features.ts";
import { detectFeatures } from "../vision/detectFeatures.ts";
import { packDescriptors, type PackedDescriptors } from "./matchDescriptors.ts";
import { onRegion, type SheetRegion } from "./sheetRegion.ts";
import { spreadKeyPoints } from "./spreadKeyPoints.ts";
import type { WorkingGrey } from "./workingGrey.ts";

/** Key points of the sheet, spread over it. */
export interface SheetFeatures {
  readonly count: number;
  /** x, y in mm of the frame, interleaved. */
  readonly xy: Float64Array;
  readonly descriptors: PackedDescriptors;
}

/**
 * Key points of a working picture that lie on the sheet, with their descriptors.
 * @param sought Of the whole picture, where they were sought already.
 */
export async function sheetFeatures(
  picture: WorkingGrey,
  region: SheetRegion,
  sought?: Features,
): Promise<SheetFeatures> {
  const { pixels, width, height, left, top, pitchX, pitchY } = picture;
  const found = await (sought ?? detectFeatures({ pixels, width, height }));
  const place = (i: number): [number, number] => [
    left + (found.xy[2 * i] + 0.5) * pitchX,
    top + (found.xy[2 * i + 1] + 0.5) * pitchY,
  ];
  const onSheet = Array.from(found.response.keys()).filter((i) => onRegion(region, ...place(i), 0));
  const kept = spreadKeyPoints(
    Float64Array.from(onSheet.flatMap((i) => [found.xy[2 * i], found.xy[2 * i + 1]])),
    Float64Array.from(onSheet, (i) => found.response[i]),
    width,
    height,
  ).map((k) => onSheet[k]);
  return {
    count: kept.length,
    xy: Float64Array.from(kept.flatMap(place)),
    descriptors: packDescriptors(found.descriptors, found.bytesPerDescriptor, kept),
  };
}
