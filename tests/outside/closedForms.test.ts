import { Matrix, solve } from "ml-matrix";
import { describe, expect, test } from "vitest";
import { fitLinearMap } from "../../src/calibrate/fitLinearMap.ts";
import { fitTargets } from "../../src/calibrate/fitTargets.ts";
import { fitThinPlate } from "../../src/calibrate/fitThinPlate.ts";
import { thinPlateAt } from "../../src/calibrate/thinPlateAt.ts";
import { labToXyzD50 } from "../../src/colour/lab.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { seededRandom } from "../../src/numeric/random.ts";
import { fitAffine } from "../../src/register/fitAffine.ts";

describe("thin plate in three dimensions: a bump of 1 in the middle of a regular tetrahedron (worked by hand)", () => {
  // Duchon 1977: kernel minus the distance. Five nodes leave one free weight: c at each corner and -4 c in the middle, so that the
  // weights sum to 0 and so do their moments. With R from the middle to a corner, d = R sqrt(8/3) from corner to corner and the
  // smoothing lambda the two equations
  //   middle:  -4 c R - 4 c lambda + a = 1      corner:  4 c R - 3 c d + c lambda + a = 0
  // give c = 1 / (3 d - 8 R - 5 lambda) and the constant a = c (3 d - 4 R - lambda).
  const R = 30;
  const d = R * Math.sqrt(8 / 3);
  const s = R / Math.sqrt(3);
  const middle: Triple = [50, 5, -3];
  const corners: Triple[] = [
    [1, 1, 1],
    [1, -1, -1],
    [-1, 1, -1],
    [-1, -1, 1],
  ].map(
    // prettier-ignore
    ([x, y, z]): Triple => [middle[0] + s * x, middle[1] + s * y, middle[2] + s * z],
  );
  const nodes = [middle, ...corners];
  // The bump in each channel by a factor of its own, on an affine map, which costs no bending and is kept.
  const factors: Triple = [1, -2, 3];
  const affine = ([L, a, b]: Triple): Triple => [
    4 + 0.9 * L + 0.05 * a - 0.02 * b,
    -3 + 0.1 * L + 1.1 * a + 0.2 * b,
    2 - 0.04 * L + 0.3 * a + 0.8 * b,
  ];
  const wanted = nodes.map((node, i): Triple => {
    const [L, a, b] = affine(node);
    return i === 0 ? [L + factors[0], a + factors[1], b + factors[2]] : [L, a, b];
  });
  const ones = nodes.map(() => 1);

  test.each([0, 1, 10, 40])("smoothing %d", (lambda) => {
    const plate = fitThinPlate(nodes, wanted, ones, lambda);
    const c = 1 / (3 * d - 8 * R - 5 * lambda);
    const constant = c * (3 * d - 4 * R - lambda);
    const places: Triple[] = [middle, [60, 5, -3], [20, -40, 70], [95, 0, 0]];
    for (const k of [0, 1, 2]) {
      // Double precision.
      expect(plate.weights[0][k]).toBeCloseTo(-4 * c * factors[k], 10);
      for (const weight of plate.weights.slice(1))
        expect(weight[k]).toBeCloseTo(c * factors[k], 10);
      for (const at of places) {
        const distance = ([x, y, z]: Triple) => Math.hypot(at[0] - x, at[1] - y, at[2] - z);
        const rise =
          constant +
          4 * c * distance(middle) -
          c * corners.reduce((sum, node) => sum + distance(node), 0);
        expect(thinPlateAt(plate, at)[k]).toBeCloseTo(affine(at)[k] + factors[k] * rise, 9);
      }
      const peak = 1 + 4 * lambda * c;
      expect(thinPlateAt(plate, middle)[k]).toBeCloseTo(affine(middle)[k] + factors[k] * peak, 9);
    }
  });
});

describe("affine map of points", () => {
  test("three points: by Cramer's rule", () => {
    const from = Float64Array.of(10, 20, 110, 35, 40, 180);
    const to = Float64Array.of(12, 19, 113, 30, 45, 182);
    const fitted = fitAffine(from, to, [0, 1, 2]);
    const det = (m: readonly number[]): number =>
      m[0] * (m[4] * m[8] - m[5] * m[7]) -
      m[1] * (m[3] * m[8] - m[5] * m[6]) +
      m[2] * (m[3] * m[7] - m[4] * m[6]);
    const columns = (axis: number): [number, number, number] => {
      const x = [0, 1, 2].map((i) => from[2 * i]);
      const y = [0, 1, 2].map((i) => from[2 * i + 1]);
      const u = [0, 1, 2].map((i) => to[2 * i + axis]);
      const rows = (p: readonly number[], q: readonly number[], r: readonly number[]): number =>
        det([0, 1, 2].flatMap((i) => [p[i], q[i], r[i]]));
      const one = [1, 1, 1];
      const all = rows(x, y, one);
      return [rows(u, y, one) / all, rows(x, u, one) / all, rows(x, y, u) / all];
    };
    [...columns(0), ...columns(1)].forEach((value, i) => {
      const key = (["a", "b", "tx", "c", "d", "ty"] as const)[i];
      expect(fitted?.[key]).toBeCloseTo(value, 10);
    });
  });

  test("four corners of a square that no affine map fits: a = sum x u / 4, the mean, equal misses of e", () => {
    const from = Float64Array.of(-1, -1, 1, -1, 1, 1, -1, 1);
    // The twist e x y stands at right angles to 1, x and y over the square's corners: least squares leaves it whole.
    const e = 0.3;
    const map = (x: number, y: number): [number, number] => [
      2 + 1.1 * x + 0.2 * y + e * x * y,
      -1 - 0.1 * x + 0.9 * y,
    ];
    const to = Float64Array.from([0, 1, 2, 3].flatMap((i) => map(from[2 * i], from[2 * i + 1])));
    const fitted = fitAffine(from, to, [0, 1, 2, 3]);
    const expected = { a: 1.1, b: 0.2, tx: 2, c: -0.1, d: 0.9, ty: -1 };
    for (const key of ["a", "b", "tx", "c", "d", "ty"] as const)
      expect(fitted?.[key]).toBeCloseTo(expected[key], 12);
  });

  test("200 scattered points against the singular values of ml-matrix", () => {
    const random = seededRandom(31);
    const from = Float64Array.from({ length: 400 }, () => 300 * random.uniform());
    const to = from.map((value) => 0.98 * value + 3 * random.normal());
    const all = Array.from({ length: 200 }, (_, i) => i);
    const rows = new Matrix(all.map((i) => [from[2 * i], from[2 * i + 1], 1]));
    const theirs = solve(rows, new Matrix(all.map((i) => [to[2 * i], to[2 * i + 1]])), true);
    const fitted = fitAffine(from, to, all);
    (["a", "b", "tx", "c", "d", "ty"] as const).forEach((key, i) => {
      expect(fitted?.[key]).toBeCloseTo(theirs.get(i % 3, Math.floor(i / 3)), 9);
    });
  });
});

describe("colour matrix of a card, weighted least squares", () => {
  const random = seededRandom(32);
  const linear = Array.from({ length: 24 }, (): Triple => [
    random.uniform(),
    random.uniform(),
    random.uniform(),
  ]);
  const labs = linear.map(([r, g, b]): Triple => [20 + 75 * g, 60 * (r - g), 60 * (g - b)]);
  const targets = fitTargets(
    linear.map((rgb, i) => ({
      name: String(i),
      linear: rgb,
      deviation: [0, 0, 0],
      clippedHigh: 0,
      clippedLow: 0,
      pixels: 1,
    })),
    labs,
    labs.map(() => false),
  );
  const ones = labs.map(() => 1);

  test.each([false, true])("against the singular values of ml-matrix (offset: %s)", (affine) => {
    // Rows times 1 / (Y^0.5 + 0.03), solved by another road.
    const weight = labs.map((lab) => 1 / (Math.sqrt(labToXyzD50(lab)[1]) + 0.03));
    const rows = linear.map((rgb, i) => [...rgb, ...(affine ? [1] : [])].map((v) => v * weight[i]));
    const wanted = labs.map((lab, i) => labToXyzD50(lab).map((v) => v * weight[i]));
    const theirs = solve(new Matrix(rows), new Matrix(wanted), true);
    const ours = fitLinearMap(targets, targets.linear, ones, affine);
    for (let k = 0; k < 3; k++) {
      for (let c = 0; c < 3; c++) expect(ours.matrix[3 * k + c]).toBeCloseTo(theirs.get(c, k), 10);
      expect(ours.offset[k]).toBeCloseTo(affine ? theirs.get(3, k) : 0, 10);
    }
  });

  test("three patches: the matrix is the wanted colours times the inverse of the seen ones", () => {
    const seen: Triple[] = [
      [0.8, 0.1, 0.05],
      [0.2, 0.7, 0.1],
      [0.1, 0.15, 0.9],
    ];
    const truth = [0.44, 0.38, 0.14, 0.22, 0.72, 0.06, 0.01, 0.1, 0.71];
    const flat = Float64Array.from(seen.flat());
    const xyz = Float64Array.from(
      seen.flatMap((rgb) =>
        [0, 1, 2].map((k) => rgb.reduce((sum, v, c) => sum + truth[3 * k + c] * v, 0)),
      ),
    );
    const { matrix } = fitLinearMap({ ...targets, count: 3, xyz }, flat, [1, 1, 1], false);
    matrix.forEach((value, i) => expect(value).toBeCloseTo(truth[i], 12));
  });
});
