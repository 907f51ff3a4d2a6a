import type { Matrix3 } from "../numeric/matrix3.ts";
import { multiply3, transpose3 } from "../numeric/matrix3.ts";
import { symmetricEigenvalues3 } from "../numeric/symmetricEigenvalues3.ts";

/** Largest by smallest singular value of a 3 x 3 matrix: how much it can amplify noise. Infinity where it is singular. */
export function matrixCondition(matrix: Matrix3): number {
  const [largest, , smallest] = symmetricEigenvalues3(multiply3(transpose3(matrix), matrix));
  return smallest > 0 ? Math.sqrt(largest / smallest) : Infinity;
}
