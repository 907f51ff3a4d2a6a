/** A symmetric matrix whose entries farther than `band` from the diagonal are 0. */
export interface BandedMatrix {
  readonly size: number;
  readonly band: number;
  /** Lower half by columns, size * (band + 1): entry (j + k, j) at j * (band + 1) + k; what lies below the last row is 0. */
  readonly values: Float64Array;
}

export function bandedMatrix(size: number, band: number): BandedMatrix {
  return { size, band, values: new Float64Array(size * (band + 1)) };
}

/**
 * Turns a symmetric positive definite banded matrix into its inverse, as far as that lies in the band: factorisation
 * L D L^T, then the recurrence of Takahashi, Fagan & Chen (1973) from the last column to the first. Exact; takes about
 * 1.5 size * band^2 multiplications.
 * @returns false where the matrix is not positive definite; its values are then of no use.
 */
export function invertBandInPlace({ size, band, values }: BandedMatrix): boolean {
  const stride = band + 1;
  for (let j = 0; j < size; j++) {
    const column = j * stride;
    const pivot = values[column];
    if (!(pivot > 0)) return false;
    const reach = Math.min(band, size - 1 - j);
    for (let k = 1; k <= reach; k++) {
      const entry = values[column + k];
      if (entry === 0) continue;
      const factor = entry / pivot;
      const target = (j + k) * stride - k;
      for (let i = k; i <= reach; i++) values[target + i] -= factor * values[column + i];
    }
    for (let k = 1; k <= reach; k++) values[column + k] /= pivot;
  }
  const inverse = new Float64Array(stride);
  for (let j = size - 1; j >= 0; j--) {
    const column = j * stride;
    const reach = Math.min(band, size - 1 - j);
    inverse.fill(0);
    for (let k = 1; k <= reach; k++) {
      const from = (j + k) * stride - k;
      const factor = values[column + k];
      let sum = factor * values[from + k];
      for (let i = k + 1; i <= reach; i++) {
        const entry = values[from + i];
        inverse[i] -= factor * entry;
        sum += values[column + i] * entry;
      }
      inverse[k] -= sum;
    }
    let diagonal = 1 / values[column];
    for (let k = 1; k <= reach; k++) diagonal -= values[column + k] * inverse[k];
    values[column] = diagonal;
    for (let k = 1; k <= reach; k++) values[column + k] = inverse[k];
  }
  return true;
}
