import { LuDecomposition, Matrix, solve } from "ml-matrix";
import type { Triple } from "../numeric/triple.ts";
import type { ThinPlate } from "./correction.ts";

/**
 * Smoothed thin plate from predicted Lab to wanted Lab: solves [K + lambda / w, P; P', 0] with the kernel K = MINUS the distance
 * (three-dimensional biharmonic) and the rows P = [1, L, a, b]. The sign matters: with plus the system still has an answer, and it is
 * no longer the smoothest surface.
 * @param from Predicted Lab, one a node; at least five. Where they lie in a plane the shortest solution is taken.
 * @param to Wanted Lab, same number.
 * @param weights How often each node counts, all > 0.
 * @param smoothing lambda, in Lab units: 0 passes through every node.
 */
export function fitThinPlate(
  from: readonly Triple[],
  to: readonly Triple[],
  weights: readonly number[],
  smoothing: number,
): ThinPlate {
  const n = from.length;
  const A = Matrix.zeros(n + 4, n + 4);
  const B = Matrix.zeros(n + 4, 3);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < i; j++) {
      const kernel = -Math.hypot(
        from[i][0] - from[j][0],
        from[i][1] - from[j][1],
        from[i][2] - from[j][2],
      );
      A.set(i, j, kernel);
      A.set(j, i, kernel);
    }
    A.set(i, i, smoothing / weights[i]);
    const row = [1, ...from[i]];
    for (let k = 0; k < 4; k++) {
      A.set(i, n + k, row[k]);
      A.set(n + k, i, row[k]);
    }
    for (let k = 0; k < 3; k++) B.set(i, k, to[i][k]);
  }
  const lu = new LuDecomposition(A);
  const solved = (lu.isSingular() ? solve(A, B, true) : lu.solve(B))
    .to2DArray()
    .map(([L, a, b]): Triple => [L, a, b]);
  return {
    nodes: from,
    weights: solved.slice(0, n),
    affine: [solved[n], solved[n + 1], solved[n + 2], solved[n + 3]],
  };
}
