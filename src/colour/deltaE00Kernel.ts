import { deltaE00Tables } from "./deltaE00Tables.ts";
import { deltaE00Simd } from "./simd/deltaE00Simd.ts";
import { SHARED_KERNEL } from "./simd/sharedKernel.ts";
import type { ThreePlanes } from "../grid/threePlanes.ts";

/**
 * CIEDE2000 of planes: by the vector kernel, and by tables where the machine has no vectors.
 *
 * Both are deterministic. The vector kernel uses only operations whose rounding IEEE 754 and WebAssembly fix, so every machine with
 * vectors gives the same figures; it takes two fifths of the time. A machine without (processors from before 2008, WebAssembly
 * switched off) gives figures that differ by less than 0.005, far below any noise floor.
 * @param reference L*, a*, b* before. @param sample L*, a*, b* after, under the same white.
 * @param usable Cells with 0 are left as they are in `out`.
 * @param out Receives the differences. Default: a new array of NaN.
 * @returns `out`, dE00; NaN where a value is NaN. Single precision; accuracy: see `deltaE00Simd` and `deltaE00Tables`.
 * @throws {RangeError} The lengths differ.
 */
export function deltaE00Kernel(
  reference: ThreePlanes,
  sample: ThreePlanes,
  usable: Uint8Array,
  out: Float32Array = new Float32Array(usable.length).fill(NaN),
): Float32Array {
  const { length } = usable;
  for (const plane of [...reference, ...sample, out])
    if (plane.length !== length)
      throw new RangeError(`Expected planes of ${length} cells, received ${plane.length}.`);
  return SHARED_KERNEL === null
    ? deltaE00Tables(reference, sample, usable, out)
    : deltaE00Simd(SHARED_KERNEL, reference, sample, usable, out);
}
