import type { Matrix3 } from "../numeric/matrix3.ts";
import { lightToLabTables } from "./lightToLabTables.ts";
import { lightToLabSimd } from "./simd/lightToLabSimd.ts";
import { SHARED_KERNEL } from "./simd/sharedKernel.ts";
import type { ThreePlanes } from "../grid/threePlanes.ts";
import type { Triple } from "../numeric/triple.ts";
import { WHITE_D50 } from "./whites.ts";

/**
 * CIELAB D50 of planes of linear light: by the vector kernel, and by tables where the machine has no vectors (see
 * `deltaE00Kernel`). The white goes into the matrix.
 * @param light R, G, B. NaN marks a cell without data and passes through.
 * @param matrix To XYZ D50, row by row. @param offset Added to X, Y, Z.
 * @param out Receives L*, a*, b*; may be `light`.
 * @returns `out`. Single precision, within 2e-4 of the formula.
 * @throws {RangeError} The lengths differ.
 */
export function lightToLab(
  light: ThreePlanes,
  matrix: Matrix3,
  offset: Triple,
  out: ThreePlanes,
): ThreePlanes {
  const { length } = light[0];
  for (const plane of [...light, ...out])
    if (plane.length !== length)
      throw new RangeError(`Expected planes of ${length} cells, received ${plane.length}.`);
  const rows = WHITE_D50.flatMap((white, k) => [
    matrix[3 * k] / white,
    matrix[3 * k + 1] / white,
    matrix[3 * k + 2] / white,
    offset[k] / white,
  ]);
  return SHARED_KERNEL === null
    ? lightToLabTables(light, rows, out)
    : lightToLabSimd(SHARED_KERNEL, light, rows, out);
}
