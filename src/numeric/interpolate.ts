/**
 * Straight lines between tabulated points, the end values held beyond them.
 * @param table Rows [x, y] in rising order of x.
 * @returns y at `x`; NaN where `x` is NaN.
 */
export function interpolate(table: readonly (readonly [number, number])[], x: number): number {
  if (Number.isNaN(x)) return NaN;
  const last = table.length - 1;
  if (x <= table[0][0]) return table[0][1];
  if (x >= table[last][0]) return table[last][1];
  let i = 0;
  while (table[i + 1][0] < x) i++;
  const [x0, y0] = table[i];
  const [x1, y1] = table[i + 1];
  return y0 + ((x - x0) / (x1 - x0)) * (y1 - y0);
}
