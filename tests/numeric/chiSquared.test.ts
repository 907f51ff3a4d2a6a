import { describe, expect, test } from "vitest";
import { chiSquaredCdf, chiSquaredQuantile } from "../../src/numeric/chiSquared.ts";
import { noncentralChiSquaredCdf } from "../../src/numeric/noncentralChiSquared.ts";
import { logGamma, regularisedGamma } from "../../src/numeric/regularisedGamma.ts";

describe("quantiles of chi-squared", () => {
  // Critical values as the NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4, prints them, to three decimals.
  test.each([
    [0.9, 1, 2.706],
    [0.95, 1, 3.841],
    [0.99, 1, 6.635],
    [0.95, 2, 5.991],
    [0.975, 2, 7.378],
    [0.9, 3, 6.251],
    [0.95, 3, 7.815],
    [0.99, 3, 11.345],
    [0.95, 5, 11.07],
    [0.975, 10, 20.483],
    [0.95, 30, 43.773],
    [0.999, 100, 149.449],
  ])("%f with %i degrees", (p, degrees, value) => {
    expect(chiSquaredQuantile(p, degrees)).toBeCloseTo(value, 3);
  });

  test("degrees need not be whole: the quantile inverts the distribution and grows with them", () => {
    let last = 0;
    for (let degrees = 0.6; degrees < 4; degrees += 0.17) {
      const x = chiSquaredQuantile(0.95, degrees);
      expect(chiSquaredCdf(x, degrees)).toBeCloseTo(0.95, 12);
      expect(x).toBeGreaterThan(last);
      last = x;
    }
  });

  test("refuses a probability of 1 and no degrees of freedom", () => {
    expect(() => chiSquaredQuantile(1, 2)).toThrow(RangeError);
    expect(() => chiSquaredQuantile(0.5, 0)).toThrow(RangeError);
  });
});

test("the incomplete gamma function obeys its recurrence on both of its branches (Abramowitz & Stegun 6.5.21)", () => {
  for (const a of [0.3, 0.5, 1.7, 4, 12.5])
    for (const x of [0.01, 0.5, a, a + 1, 3 * a + 5]) {
      const step = Math.exp(a * Math.log(x) - x - logGamma(a + 1));
      // Both sides are sums of a few terms of at most 1.
      expect(regularisedGamma(a + 1, x)).toBeCloseTo(regularisedGamma(a, x) - step, 13);
    }
});

describe("noncentral chi-squared", () => {
  const normal = (z: number): number =>
    z < 0 ? 1 - normal(-z) : 0.5 + 0.5 * regularisedGamma(0.5, (z * z) / 2);

  test("with one degree it is the square of a shifted normal value", () => {
    for (const shift of [0, 0.3, 1, 2.5, 6, 11])
      for (const root of [0.1, 1, 2, 5, 12]) {
        const expected = normal(root - shift) - normal(-root - shift);
        expect(noncentralChiSquaredCdf(root * root, 1, shift * shift)).toBeCloseTo(expected, 10);
      }
  });

  test("without noncentrality it is the central one", () => {
    expect(noncentralChiSquaredCdf(2.7, 2.4, 0)).toBeCloseTo(chiSquaredCdf(2.7, 2.4), 14);
  });
});
