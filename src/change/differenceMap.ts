import { deltaE00Kernel } from "../colour/deltaE00Kernel.ts";

/** Three planes of CIELAB D50; NaN where there is no data. */
export type LabPlanes = readonly [Float32Array, Float32Array, Float32Array];

/** CIEDE2000 of every usable cell (1); NaN elsewhere. */
export function differenceMap(
  before: LabPlanes,
  after: LabPlanes,
  usable: Uint8Array,
): Float32Array {
  return deltaE00Kernel(before, after, usable);
}
