/**
 * Quantile of weighted values: the value at which the running weight, half of each value's own counted, passes p; linear between values.
 * @param values Any order.
 * @param weights >= 0, as many.
 * @returns NaN where no weight is positive.
 */
export function weightedQuantile(
  values: ArrayLike<number>,
  weights: ArrayLike<number>,
  p: number,
): number {
  const order = Array.from(values, (_, i) => i)
    .filter((i) => weights[i] > 0)
    .sort((i, j) => values[i] - values[j]);
  const total = order.reduce((sum, i) => sum + weights[i], 0);
  let before = 0;
  let lastAt = 0;
  let lastValue = NaN;
  for (const i of order) {
    const at = (before + weights[i] / 2) / total;
    if (at >= p) {
      if (Number.isNaN(lastValue)) return values[i];
      return lastValue + ((p - lastAt) / (at - lastAt)) * (values[i] - lastValue);
    }
    before += weights[i];
    lastAt = at;
    lastValue = values[i];
  }
  return lastValue;
}
