import { expect, test } from "vitest";
import { covarianceRadius, scaledChiSquared } from "../../src/calibrate/covarianceRadius.ts";
import { differenceCoordinates } from "../../src/calibrate/differenceCoordinates.ts";
import { ciede2000 } from "../../src/colour/ciede2000.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import type { Matrix3 } from "../../src/numeric/matrix3.ts";
import { multiply3Vector } from "../../src/numeric/matrix3.ts";
import { seededRandom } from "../../src/numeric/random.ts";

test("small differences keep their CIEDE2000 as a length, all over colour space and in every direction", () => {
  const random = seededRandom(5);
  for (let run = 0; run < 2000; run++) {
    const chroma = 90 * random.uniform();
    const hue = 2 * Math.PI * random.uniform();
    const lab: Triple = [100 * random.uniform(), chroma * Math.cos(hue), chroma * Math.sin(hue)];
    const d = [random.normal(), random.normal(), random.normal()].map((value) => 0.01 * value);
    const half = (sign: number): Triple => [
      lab[0] + (sign * d[0]) / 2,
      lab[1] + (sign * d[1]) / 2,
      lab[2] + (sign * d[2]) / 2,
    ];
    const expected = ciede2000(half(-1), half(1));
    const length = Math.hypot(...multiply3Vector(differenceCoordinates(lab), d as never));
    // A difference of 0.01 is local: what is left is the curvature of the formula, most of it near the neutral axis.
    if (chroma > 1) expect(Math.abs(length / expected - 1)).toBeLessThan(2e-3);
  }
});

test("at the neutral axis a* counts by the factor 1.5 and b* by 1", () => {
  const W = differenceCoordinates([50, 0, 0]);
  expect(Math.hypot(...multiply3Vector(W, [0, 1, 0]))).toBeCloseTo(1.5, 12);
  expect(Math.hypot(...multiply3Vector(W, [0, 0, 1]))).toBeCloseTo(1, 12);
  expect(Math.hypot(...multiply3Vector(W, [1, 0, 0]))).toBeCloseTo(1, 12);
});

test("the radius of a covariance holds the stated share of random differences", () => {
  const random = seededRandom(6);
  // Lightness spreads most; a* and b* go together.
  const root: Matrix3 = [0.3, 0, 0, 0.05, 0.1, 0, 0, 0.06, 0.04];
  const covariance: Matrix3 = [0.09, 0.015, 0, 0.015, 0.0125, 0.006, 0, 0.006, 0.0052];
  const lab: Triple = [60, 40, 20];
  const radius = covarianceRadius(covariance, lab, 0.95);
  let inside = 0;
  const draws = 4000;
  for (let i = 0; i < draws; i++) {
    const [dL, da, db] = multiply3Vector(root, [random.normal(), random.normal(), random.normal()]);
    if (ciede2000(lab, [lab[0] + dL, lab[1] + da, lab[2] + db]) <= radius) inside++;
  }
  // Two moments are matched, not the tail: within 1 % of the level, plus sampling error of 4000 draws (0.35 %).
  expect(Math.abs(inside / draws - 0.95)).toBeLessThan(0.015);
});

test("equal spread in three directions has three degrees of freedom, spread in one has one", () => {
  const W = differenceCoordinates([50, 0, 0]);
  expect(W[4] ** 2).toBeGreaterThan(1);
  const one = scaledChiSquared([0.04, 0, 0, 0, 0, 0, 0, 0, 0], [50, 0, 0]);
  expect(one.h).toBeCloseTo(1, 9);
  expect(one.g).toBeCloseTo(0.04, 9);
  const three = scaledChiSquared([1, 0, 0, 0, 1 / 2.25, 0, 0, 0, 1], [50, 0, 0]);
  expect(three.h).toBeCloseTo(3, 9);
  expect(covarianceRadius([0, 0, 0, 0, 0, 0, 0, 0, 0], [50, 0, 0], 0.95)).toBe(0);
});
