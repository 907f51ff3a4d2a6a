import type { Triple } from "./triple.ts";

/** A 3 x 3 matrix, row-major. */
// prettier-ignore
export type Matrix3 = readonly [
  number, number, number,
  number, number, number,
  number, number, number,
];

/** The product A B. */
export function multiply3(A: Matrix3, B: Matrix3): Matrix3 {
  return mapMatrix3(A, (_, place) => {
    const column = place % 3;
    const row = place - column;
    return A[row] * B[column] + A[row + 1] * B[column + 3] + A[row + 2] * B[column + 6];
  });
}

/** A function of each entry; places count row by row. */
export function mapMatrix3(A: Matrix3, of: (value: number, place: number) => number): Matrix3 {
  // prettier-ignore
  return [
    of(A[0], 0), of(A[1], 1), of(A[2], 2),
    of(A[3], 3), of(A[4], 4), of(A[5], 5),
    of(A[6], 6), of(A[7], 7), of(A[8], 8),
  ];
}

/** The product A v. */
export function multiply3Vector(A: Matrix3, v: Triple): Triple {
  return [
    A[0] * v[0] + A[1] * v[1] + A[2] * v[2],
    A[3] * v[0] + A[4] * v[1] + A[5] * v[2],
    A[6] * v[0] + A[7] * v[1] + A[8] * v[2],
  ];
}

/**
 * The inverse by cofactors.
 * @throws {RangeError} The matrix is singular.
 */
export function invert3(A: Matrix3): Matrix3 {
  const [a, b, c, d, e, f, g, h, i] = A;
  const ei = e * i - f * h;
  const fg = f * g - d * i;
  const dh = d * h - e * g;
  const determinant = a * ei + b * fg + c * dh;
  if (determinant === 0 || !Number.isFinite(determinant))
    throw new RangeError("Expected an invertible 3 x 3 matrix.");
  // prettier-ignore
  return [
    ei / determinant, (c * h - b * i) / determinant, (b * f - c * e) / determinant,
    fg / determinant, (a * i - c * g) / determinant, (c * d - a * f) / determinant,
    dh / determinant, (b * g - a * h) / determinant, (a * e - b * d) / determinant,
  ];
}

/** The transpose. */
export function transpose3([a, b, c, d, e, f, g, h, i]: Matrix3): Matrix3 {
  return [a, d, g, b, e, h, c, f, i];
}
