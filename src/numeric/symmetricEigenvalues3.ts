import type { Matrix3 } from "./matrix3.ts";

/**
 * Eigenvalues of a symmetric 3 x 3 matrix in falling order, in closed form.
 * Accurate to about 1e-8 of the largest one; smaller ones lose their last digits.
 * @param A Symmetric; the upper triangle is read.
 * @see Smith, Commun. ACM 4(4), 168 (1961).
 */
export function symmetricEigenvalues3(A: Matrix3): readonly [number, number, number] {
  const [a, b, c, , d, e, , , f] = A;
  const m = (a + d + f) / 3;
  const p2 = ((a - m) ** 2 + (d - m) ** 2 + (f - m) ** 2 + 2 * (b * b + c * c + e * e)) / 6;
  if (p2 === 0) return [m, m, m];
  const p = Math.sqrt(p2);
  const [u, v, w] = [(a - m) / p, (d - m) / p, (f - m) / p];
  const [x, y, z] = [b / p, c / p, e / p];
  const half = (u * (v * w - z * z) - x * (x * w - z * y) + y * (x * z - v * y)) / 2;
  const angle = Math.acos(Math.min(1, Math.max(-1, half))) / 3;
  const largest = m + 2 * p * Math.cos(angle);
  const smallest = m + 2 * p * Math.cos(angle + (2 * Math.PI) / 3);
  return [largest, 3 * m - largest - smallest, smallest];
}
