import { EigenvalueDecomposition, Matrix } from "ml-matrix";
import { expect, test } from "vitest";
import type { Matrix3 } from "../../src/numeric/matrix3.ts";
import { multiply3, transpose3 } from "../../src/numeric/matrix3.ts";
import { seededRandom } from "../../src/numeric/random.ts";
import { symmetricEigenvalues3 } from "../../src/numeric/symmetricEigenvalues3.ts";

test("agrees with a general decomposition", () => {
  const random = seededRandom(3);
  for (let run = 0; run < 200; run++) {
    const B = Array.from({ length: 9 }, () => random.normal()) as unknown as Matrix3;
    const A = multiply3(transpose3(B), B);
    const general = new EigenvalueDecomposition(Matrix.from1DArray(3, 3, Array.from(A)));
    const expected = [...general.realEigenvalues].sort((a, b) => b - a);
    // The closed form loses half the digits where two eigenvalues nearly meet.
    symmetricEigenvalues3(A).forEach((value, i) => {
      expect(Math.abs(value - expected[i])).toBeLessThan(1e-7 * expected[0]);
    });
  }
});

test("a multiple of the identity has it three times", () => {
  expect(symmetricEigenvalues3([2, 0, 0, 0, 2, 0, 0, 0, 2])).toEqual([2, 2, 2]);
});
