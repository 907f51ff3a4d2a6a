import { normalCdf } from "../numeric/normalCdf.ts";

const HALVINGS = 60;
/** So many standard deviations beyond the outermost mean nothing is left. */
const BEYOND = 10;

/** Quantile of a mixture of normal distributions. @param weights Summing to 1. */
export function mixtureQuantile(
  means: readonly number[],
  sds: readonly number[],
  weights: ArrayLike<number>,
  share: number,
): number {
  const widest = BEYOND * Math.max(...sds);
  let low = Math.min(...means) - widest;
  let high = Math.max(...means) + widest;
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    let below = 0;
    means.forEach((mean, j) => (below += weights[j] * normalCdf((middle - mean) / sds[j])));
    if (below < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
