import { Matrix, solve } from "ml-matrix";
import type { Triple } from "../numeric/triple.ts";
import { solveCholesky } from "../numeric/cholesky.ts";
import type { Matrix3 } from "../numeric/matrix3.ts";
import type { FitTargets } from "./fitTargets.ts";

/** Power of the luminance in the weight of a patch: any value from 1/3 to 2/3 does equally well in simulated pairs. */
const WEIGHT_POWER = 0.5;
/** Keeps the weight of black patches finite: about the luminance of the black patch. */
const WEIGHT_FLOOR = 0.03;

export interface LinearMap {
  readonly matrix: Matrix3;
  readonly offset: Triple;
}

/**
 * Weighted least squares of XYZ on tone-corrected linear RGB. Each patch row is weighted by 1 / (Y^0.5 + 0.03), which makes an
 * error count for about what it is worth in lightness: without it light patches decide alone and dark colours drift.
 * @param targets Wanted XYZ.
 * @param tone Tone-corrected linear values, three a patch.
 * @param weights How often each patch counts; 0 leaves it out.
 * @param affine Whether a constant is added to X, Y and Z.
 * @returns The shortest solution where the patches do not determine it.
 */
export function fitLinearMap(
  targets: FitTargets,
  tone: Float64Array,
  weights: ArrayLike<number>,
  affine: boolean,
): LinearMap {
  const n = affine ? 4 : 3;
  const normal = new Float64Array(n * n);
  const right = [new Float64Array(n), new Float64Array(n), new Float64Array(n)];
  const row = new Float64Array(n).fill(1);
  for (let patch = 0; patch < targets.count; patch++) {
    if (weights[patch] === 0) continue;
    const Y = Math.max(0, targets.xyz[3 * patch + 1]);
    const w = weights[patch] / (Y ** WEIGHT_POWER + WEIGHT_FLOOR) ** 2;
    for (let i = 0; i < 3; i++) row[i] = tone[3 * patch + i];
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) normal[i * n + j] += w * row[i] * row[j];
      for (let k = 0; k < 3; k++) right[k][i] += w * row[i] * targets.xyz[3 * patch + k];
    }
  }
  const [x, y, z] = solveAll(normal, right);
  return {
    matrix: [x[0], x[1], x[2], y[0], y[1], y[2], z[0], z[1], z[2]],
    offset: affine ? [x[3], y[3], z[3]] : [0, 0, 0],
  };
}

function solveAll(normal: Float64Array, right: readonly Float64Array[]): Float64Array[] {
  const solved = right.map((column) => Float64Array.from(column));
  if (solved.every((column) => solveCholesky(Float64Array.from(normal), column))) return solved;
  const n = right[0].length;
  const A = Matrix.from1DArray(n, n, Array.from(normal));
  return right.map((column) =>
    Float64Array.from(solve(A, Matrix.columnVector(column), true).to1DArray()),
  );
}
