/** The value at which half of the weight is reached, values ascending; NaN when there is no weight. */
export function weightedMedian(values: readonly number[], weights: readonly number[]): number {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const ascending = Array.from(values.keys()).sort((i, j) => values[i] - values[j]);
  let reached = 0;
  for (const i of ascending) {
    reached += weights[i];
    if (total > 0 && reached >= total / 2) return values[i];
  }
  return NaN;
}
