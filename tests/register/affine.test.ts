import { describe, expect, test } from "vitest";
import { seededRandom } from "../../src/numeric/random.ts";
import { affineParts, type Affine } from "../../src/register/affine.ts";
import { fitAffine, refineAffine } from "../../src/register/fitAffine.ts";
import { similarityRansac } from "../../src/register/similarityRansac.ts";

const LIMITS = { tolerance: 2.1, leastDistance: 26, mostGrowth: 1.25 };

function apply({ a, b, tx, c, d, ty }: Affine, x: number, y: number): [number, number] {
  return [a * x + b * y + tx, c * x + d * y + ty];
}

/** Pairs of a similarity: scale 0.97, turned by 100 degrees; a share is thrown anywhere. */
function pairs(
  count: number,
  outliers: number,
): { from: Float64Array; to: Float64Array; truth: Affine } {
  const random = seededRandom(21);
  const turn = (100 * Math.PI) / 180;
  const c = 0.97 * Math.cos(turn);
  const d = 0.97 * Math.sin(turn);
  const truth = { a: c, b: -d, tx: 200, c: d, d: c, ty: 15 };
  const from: number[] = [];
  const to: number[] = [];
  for (let i = 0; i < count; i++) {
    const [x, y] = [395 * random.uniform(), 265 * random.uniform()];
    from.push(x, y);
    const [u, v] = apply(truth, x, y);
    if (i < outliers * count) to.push(395 * random.uniform() - 200, 395 * random.uniform());
    else to.push(u + 0.2 * random.normal(), v + 0.2 * random.normal());
  }
  return { from: Float64Array.from(from), to: Float64Array.from(to), truth };
}

describe("robust similarity", () => {
  test("sixty percent of wrong matches don't hide it", () => {
    const { from, to, truth } = pairs(500, 0.6);
    const fit = similarityRansac(from, to, LIMITS, seededRandom(1));
    expect(fit?.inliers).toBeGreaterThanOrEqual(200);
    const refined = fit && refineAffine(fit.model, from, to, LIMITS.tolerance);
    // 200 points with 0.2 mm of noise over some 100 mm: corners are known to a few hundredths of a mm.
    for (const [x, y] of [
      [0, 0],
      [395, 0],
      [0, 265],
      [395, 265],
    ]) {
      const [u, v] = apply(refined?.affine ?? truth, x, y);
      const [tu, tv] = apply(truth, x, y);
      expect(Math.hypot(u - tu, v - tv)).toBeLessThan(0.15);
    }
    expect(refined?.inliers.length).toBeLessThan(230);
    expect(similarityRansac(from, to, LIMITS, seededRandom(1))).toEqual(fit);
  });

  test("a mirrored pair has next to no inliers", () => {
    const { from, to } = pairs(300, 0);
    const mirrored = to.map((value, i) => (i % 2 === 0 ? -value : value));
    expect(similarityRansac(from, mirrored, LIMITS, seededRandom(1))?.inliers ?? 0).toBeLessThan(
      30,
    );
  });

  test("too few pairs, or all in one place, fit nothing", () => {
    const one = Float64Array.of(5, 5);
    expect(similarityRansac(one, one, LIMITS, seededRandom(1))).toBeNull();
    const heap = Float64Array.from({ length: 40 }, (_, i) => i / 10);
    expect(similarityRansac(heap, heap, LIMITS, seededRandom(1))).toBeNull();
  });
});

test("least squares gives an exact affine map back", () => {
  const map = { a: 1.01, b: 0.02, tx: -3, c: -0.03, d: 0.99, ty: 8 };
  const from = Float64Array.of(0, 0, 100, 10, 20, 80, 90, 90);
  const to = Float64Array.from(
    [0, 1, 2, 3].flatMap((i) => apply(map, from[2 * i], from[2 * i + 1])),
  );
  const fitted = fitAffine(from, to, [0, 1, 2, 3]);
  for (const key of ["a", "b", "tx", "c", "d", "ty"] as const)
    expect(fitted?.[key]).toBeCloseTo(map[key], 10);
  expect(
    fitAffine(Float64Array.of(0, 0, 1, 1, 2, 2), Float64Array.of(0, 0, 1, 1, 2, 2), [0, 1, 2]),
  ).toBeNull();
});

test("an affine map is taken apart into turn, stretch and shear", () => {
  const turn = (-3 * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const [scaleX, scaleY, shear] = [0.98, 1.02, 0.005];
  // R(turn) [[scaleX, shear scaleY], [0, scaleY]]
  const parts = affineParts({
    a: cos * scaleX,
    b: cos * shear * scaleY - sin * scaleY,
    tx: 0,
    c: sin * scaleX,
    d: sin * shear * scaleY + cos * scaleY,
    ty: 0,
  });
  expect(parts.scaleX).toBeCloseTo(scaleX, 12);
  expect(parts.scaleY).toBeCloseTo(scaleY, 12);
  expect(parts.shear).toBeCloseTo(shear, 12);
  expect(parts.rotationDegrees).toBeCloseTo(-3, 12);
  expect(parts.mirrored).toBe(false);
  expect(affineParts({ a: -1, b: 0, tx: 0, c: 0, d: 1, ty: 0 }).mirrored).toBe(true);
});
