import type { ThreePlanes } from "../../grid/threePlanes.ts";
import type { SimdKernel } from "./startKernel.ts";

/**
 * CIEDE2000 of planes by the vector kernel, block after block.
 * @param reference L*, a*, b* before. @param sample L*, a*, b* after, under the same white.
 * @param usable Cells with 0 are left as they are in `out`.
 * @param out Receives the differences; as long as every other.
 * @returns `out`, dE00; NaN where a value is NaN. Single precision; against the double formula within 0.0001 on pairs a few dE00
 *   apart and 0.001 on any, except where the two hues are opposite within 0.1 degree: there the formula itself jumps.
 */
export function deltaE00Simd(
  { blockCells, memory, deltaE00 }: SimdKernel,
  reference: ThreePlanes,
  sample: ThreePlanes,
  usable: Uint8Array,
  out: Float32Array,
): Float32Array {
  const planes = [...reference, ...sample];
  const difference = memory[planes.length];
  for (let from = 0; from < usable.length; from += blockCells) {
    const cells = Math.min(blockCells, usable.length - from);
    for (let k = 0; k < planes.length; k++) memory[k].set(planes[k].subarray(from, from + cells));
    deltaE00(cells);
    for (let i = 0; i < cells; i++) if (usable[from + i] !== 0) out[from + i] = difference[i];
  }
  return out;
}
