/**
 * Shares w of the 2^k primaries in a cell whose plates print independently of each other: w_j = product of c or 1 - c.
 * @param coverages k values from index `at`.
 * @param out Receives 2^k values.
 * @see Demichel, Le Procédé 26, 17-21 and 26-27 (1924), from memory.
 */
export function primaryShares(
  coverages: ArrayLike<number>,
  at: number,
  plates: number,
  out: Float64Array,
): void {
  out[0] = 1;
  let size = 1;
  for (let i = 0; i < plates; i++) {
    const c = coverages[at + i];
    for (let j = 0; j < size; j++) {
      out[size + j] = out[j] * c;
      out[j] *= 1 - c;
    }
    size *= 2;
  }
}
