/** Lanczos coefficients, g = 7, n = 9 (error below 1e-15 for positive arguments). */
// prettier-ignore
const LANCZOS = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
  12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
] as const;

/** Natural logarithm of the gamma function of a > 0. */
export function logGamma(a: number): number {
  if (a < 0.5) return Math.log(Math.PI / Math.sin(Math.PI * a)) - logGamma(1 - a);
  let sum: number = LANCZOS[0];
  for (let i = 1; i < LANCZOS.length; i++) sum += LANCZOS[i] / (a - 1 + i);
  const t = a + 6.5;
  return 0.5 * Math.log(2 * Math.PI) + (a - 0.5) * Math.log(t) - t + Math.log(sum);
}

const TERMS = 500;
const PRECISION = 1e-16;

/**
 * Regularised lower incomplete gamma function P(a, x).
 * @param a > 0.
 * @param x >= 0.
 * @returns 0..1. Series below a + 1, continued fraction (modified Lentz) above.
 * @see Abramowitz & Stegun 6.5.29 and 6.5.31.
 */
export function regularisedGamma(a: number, x: number): number {
  if (x <= 0) return 0;
  const front = Math.exp(a * Math.log(x) - x - logGamma(a));
  if (x < a + 1) {
    let term = 1 / a;
    let sum = term;
    for (let n = 1; n < TERMS && term > sum * PRECISION; n++) {
      term *= x / (a + n);
      sum += term;
    }
    return Math.min(1, sum * front);
  }
  let b = x + 1 - a;
  let c = 1 / Number.MIN_VALUE ** 0.5;
  let d = 1 / b;
  let fraction = d;
  for (let n = 1; n < TERMS; n++) {
    const an = n * (a - n);
    b += 2;
    d = 1 / (an * d + b);
    c = b + an / c;
    const factor = c * d;
    fraction *= factor;
    if (Math.abs(factor - 1) < PRECISION) break;
  }
  return Math.max(0, 1 - front * fraction);
}
