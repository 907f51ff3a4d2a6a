import { chiSquaredCdf } from "./chiSquared.ts";

/**
 * Probability that a noncentral chi-squared value is at most `x`: central ones mixed by Poisson weights.
 * @param degrees Degrees of freedom, > 0, need not be whole.
 * @param noncentrality Squared length of the mean, >= 0.
 * @see Johnson, Kotz & Balakrishnan, Continuous Univariate Distributions 2, chapter 29.
 */
export function noncentralChiSquaredCdf(x: number, degrees: number, noncentrality: number): number {
  if (x <= 0) return 0;
  const half = noncentrality / 2;
  const centre = Math.floor(half);
  // From the largest Poisson weight outwards, both ways, until the weights no longer count.
  const spread = Math.ceil(SPREAD * Math.sqrt(half + 1)) + SPREAD;
  let sum = 0;
  let weights = 0;
  let logWeight = -half + (half > 0 ? centre * Math.log(half) : 0) - logFactorial(centre);
  const atCentre = logWeight;
  for (let j = centre; j <= centre + spread; j++) {
    const weight = Math.exp(logWeight);
    sum += weight * chiSquaredCdf(x, degrees + 2 * j);
    weights += weight;
    if (half === 0) break;
    logWeight += Math.log(half / (j + 1));
  }
  logWeight = atCentre;
  for (let j = centre; j > 0 && j > centre - spread; j--) {
    logWeight += Math.log(j / half);
    const weight = Math.exp(logWeight);
    sum += weight * chiSquaredCdf(x, degrees + 2 * (j - 1));
    weights += weight;
  }
  return weights > 0 ? Math.min(1, sum / weights) : 0;
}

/** Standard deviations of the Poisson weights that are summed on either side. */
const SPREAD = 8;

function logFactorial(n: number): number {
  let sum = 0;
  for (let i = 2; i <= n; i++) sum += Math.log(i);
  return sum;
}
