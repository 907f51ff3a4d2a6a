/**
 * Adjusted Rand index of two labellings of the same cells: 1 for the same partition whatever the labels are called, about
 * 0 for unrelated ones.
 * @param use Cells with 0 are left out. Default: all.
 * @see Hubert & Arabie, J. Classification 2, 193-218 (1985).
 */
export function adjustedRandIndex(
  reference: ArrayLike<number>,
  sample: ArrayLike<number>,
  use?: ArrayLike<number>,
): number {
  const table = new Float64Array(256 * 256);
  const rows = new Float64Array(256);
  const columns = new Float64Array(256);
  let n = 0;
  for (let i = 0; i < reference.length; i++) {
    if (use !== undefined && use[i] === 0) continue;
    table[256 * reference[i] + sample[i]]++;
    rows[reference[i]]++;
    columns[sample[i]]++;
    n++;
  }
  const pairs = (counts: Float64Array): number =>
    counts.reduce((sum, count) => sum + (count * (count - 1)) / 2, 0);
  const together = pairs(table);
  const expected = (pairs(rows) * pairs(columns)) / ((n * (n - 1)) / 2);
  const most = (pairs(rows) + pairs(columns)) / 2;
  return most === expected ? 1 : (together - expected) / (most - expected);
}
