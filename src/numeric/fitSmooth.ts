import { levenbergMarquardt } from "./levenbergMarquardt.ts";

/** Forward differences: half of the 16 digits go to the step. */
const RELATIVE_STEP = 1e-6;
const SMALLEST_STEP = 1e-7;

/**
 * Least squares of a few parameters with derivatives by forward differences, for residuals that are cheap and smooth.
 * @param residuals Writes the residuals at a point.
 * @param count Number of residuals.
 * @param start Where to begin.
 * @returns The best point and its sum of squares.
 */
export function fitSmooth(
  residuals: (at: Float64Array, out: Float64Array) => void,
  count: number,
  start: ArrayLike<number>,
): { readonly parameters: Float64Array; readonly sumOfSquares: number } {
  const n = start.length;
  const moved = new Float64Array(count);
  const { parameters, cost } = levenbergMarquardt(
    {
      parameters: n,
      residuals: count,
      evaluate: (at, out, jacobian) => {
        residuals(at, out);
        if (jacobian !== null)
          for (let j = 0; j < n; j++) {
            const kept = at[j];
            const h = Math.max(RELATIVE_STEP * Math.abs(kept), SMALLEST_STEP);
            at[j] = kept + h;
            residuals(at, moved);
            at[j] = kept;
            for (let i = 0; i < count; i++) jacobian[i * n + j] = (moved[i] - out[i]) / h;
          }
        return out.reduce((sum, r) => sum + r * r, 0);
      },
    },
    start,
  );
  return { parameters, sumOfSquares: cost };
}
