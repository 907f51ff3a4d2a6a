/**
 * Slopes at the knots of a monotone cubic (Hermite) curve.
 * @param x Knots, strictly increasing, at least two.
 * @param y Values, not decreasing.
 * @returns One slope a knot; the curve through them never turns back between two knots.
 * @throws {RangeError} Fewer than two knots, another number of values, or knots that do not increase.
 * @see Fritsch & Carlson, SIAM J. Numer. Anal. 17(2), 238-246 (1980); inner slopes as weighted harmonic means of the neighbouring
 * secants: Fritsch & Butland, SIAM J. Sci. Stat. Comput. 5(2), 300-304 (1984).
 */
export function monotoneSlopes(x: readonly number[], y: readonly number[]): number[] {
  const n = x.length;
  if (n < 2 || y.length !== n)
    throw new RangeError(
      `Expected two knots or more with one value each, received ${n} and ${y.length}.`,
    );
  const width = new Array<number>(n - 1);
  const secant = new Array<number>(n - 1);
  for (let i = 0; i < n - 1; i++) {
    width[i] = x[i + 1] - x[i];
    if (!(width[i] > 0)) throw new RangeError("Expected knots in increasing order.");
    secant[i] = (y[i + 1] - y[i]) / width[i];
  }
  const slope = new Array<number>(n);
  // The ends take the secant beside them: the curve then continues as the straight line the extrapolation uses.
  slope[0] = secant[0];
  slope[n - 1] = secant[n - 2];
  for (let i = 1; i < n - 1; i++) {
    const left = secant[i - 1];
    const right = secant[i];
    const w1 = 2 * width[i] + width[i - 1];
    const w2 = width[i] + 2 * width[i - 1];
    slope[i] = left * right > 0 ? (w1 + w2) / (w1 / left + w2 / right) : 0;
  }
  return slope;
}

/** Value of the curve at `at`; a straight line with the end slope beyond the outer knots. */
export function monotoneCubicAt(
  x: readonly number[],
  y: readonly number[],
  slope: readonly number[],
  at: number,
): number {
  const last = x.length - 1;
  if (at <= x[0]) return y[0] + slope[0] * (at - x[0]);
  if (at >= x[last]) return y[last] + slope[last] * (at - x[last]);
  let i = 0;
  while (at > x[i + 1]) i++;
  const h = x[i + 1] - x[i];
  const t = (at - x[i]) / h;
  const t2 = t * t;
  const t3 = t2 * t;
  return (
    (2 * t3 - 3 * t2 + 1) * y[i] +
    (t3 - 2 * t2 + t) * h * slope[i] +
    (3 * t2 - 2 * t3) * y[i + 1] +
    (t3 - t2) * h * slope[i + 1]
  );
}
