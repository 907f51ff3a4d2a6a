import type { ThreePlanes } from "../../grid/threePlanes.ts";
import type { SimdKernel } from "./startKernel.ts";

/**
 * CIELAB of planes of linear light by the vector kernel, block after block.
 * @param rows To X, Y, Z relative to the white: three factors and an offset each.
 * @param out Receives L*, a*, b*; may be `light`, and is as long.
 * @returns `out`, single precision: within 2e-4 of the formula. NaN stays NaN.
 */
export function lightToLabSimd(
  { blockCells, memory, lightToLab }: SimdKernel,
  light: ThreePlanes,
  rows: readonly number[],
  out: ThreePlanes,
): ThreePlanes {
  const { length } = light[0];
  for (let from = 0; from < length; from += blockCells) {
    const cells = Math.min(blockCells, length - from);
    for (let k = 0; k < 3; k++) memory[k].set(light[k].subarray(from, from + cells));
    lightToLab(cells, ...rows);
    for (let k = 0; k < 3; k++) out[k].set(memory[k].subarray(0, cells), from);
  }
  return out;
}
