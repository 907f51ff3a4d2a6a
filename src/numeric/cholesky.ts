/** A pivot that lost this much of its diagonal to cancellation says that the columns depend on each other. */
const SMALLEST_PIVOT = 1e-13;

/**
 * Solves A x = b for a symmetric positive definite A, by Cholesky's factorisation.
 * Bare loops on flat arrays: this runs some hundred thousand times inside one comparison.
 * @param A n x n, row-major; only the lower triangle is read. Overwritten with the factor.
 * @param b Length n. Overwritten with x.
 * @returns false where A is not positive definite to working precision; `b` then holds no answer.
 */
export function solveCholesky(A: Float64Array, b: Float64Array): boolean {
  const n = b.length;
  for (let j = 0; j < n; j++) {
    const rowJ = j * n;
    let pivot = A[rowJ + j];
    const scale = pivot;
    for (let k = 0; k < j; k++) pivot -= A[rowJ + k] * A[rowJ + k];
    if (!(pivot > scale * SMALLEST_PIVOT)) return false;
    const root = Math.sqrt(pivot);
    A[rowJ + j] = root;
    for (let i = j + 1; i < n; i++) {
      const rowI = i * n;
      let sum = A[rowI + j];
      for (let k = 0; k < j; k++) sum -= A[rowI + k] * A[rowJ + k];
      A[rowI + j] = sum / root;
    }
  }
  for (let i = 0; i < n; i++) {
    let sum = b[i];
    for (let k = 0; k < i; k++) sum -= A[i * n + k] * b[k];
    b[i] = sum / A[i * n + i];
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = b[i];
    for (let k = i + 1; k < n; k++) sum -= A[k * n + i] * b[k];
    b[i] = sum / A[i * n + i];
  }
  return true;
}
