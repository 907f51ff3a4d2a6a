import type { Point } from "../../src/numeric/point.ts";
import { expect, test } from "vitest";
import { applyHomography, fitHomography } from "../../src/card/homography.ts";
import type { Matrix3 } from "../../src/numeric/matrix3.ts";
import { invert3 } from "../../src/numeric/matrix3.ts";
import { seededRandom } from "../../src/numeric/random.ts";

// Strong perspective: w runs from 1 to 1.75 over the lattice.
const TRUE: Matrix3 = [110, -35, 900, 42, 95, 400, 0.11, 0.07, 1];
const lattice = Array.from({ length: 24 }, (_, i): Point => [i % 6, Math.floor(i / 6)]);

test("four points are met exactly, and the rest follows", () => {
  const four: Point[] = [[0, 0], [5, 0], [5, 3], [0, 3]]; // prettier-ignore
  const H = fitHomography(
    four,
    four.map((p) => applyHomography(TRUE, p)),
  );
  if (H === null) throw new Error("no map");
  for (const p of lattice) {
    const [x, y] = applyHomography(H, p);
    const [tx, ty] = applyHomography(TRUE, p);
    // Rounding of doubles through normal equations, in pixels.
    expect(Math.hypot(x - tx, y - ty)).toBeLessThan(1e-6);
  }
});

test("many points with noise: the error shrinks as least squares says", () => {
  const random = seededRandom(3);
  let squared = 0;
  const ROUNDS = 40;
  for (let round = 0; round < ROUNDS; round++) {
    const seen = lattice.map((p): Point => {
      const [x, y] = applyHomography(TRUE, p);
      return [x + random.normal(), y + random.normal()];
    });
    const H = fitHomography(lattice, seen);
    if (H === null) throw new Error("no map");
    for (const p of lattice) {
      const [x, y] = applyHomography(H, p);
      const [tx, ty] = applyHomography(TRUE, p);
      squared += ((x - tx) ** 2 + (y - ty) ** 2) / 2 / lattice.length / ROUNDS;
    }
  }
  // Unbiased fit of 8 numbers to 48 coordinates of variance 1: mean variance 8 / 48 = 0.167. Spread over 40 rounds about 8 %.
  expect(squared).toBeGreaterThan(0.12);
  expect(squared).toBeLessThan(0.21);
});

test("there and back", () => {
  const back = invert3(TRUE);
  for (const p of lattice) {
    const [x, y] = applyHomography(back, applyHomography(TRUE, p));
    expect(x).toBeCloseTo(p[0], 9);
    expect(y).toBeCloseTo(p[1], 9);
  }
});

test.each<[string, Point[]]>([
  ["three points", [[0, 0], [1, 0], [1, 1]]], // prettier-ignore
  ["points on one line", [[0, 0], [1, 1], [2, 2], [3, 3]]], // prettier-ignore
  ["one point four times", [[2, 2], [2, 2], [2, 2], [2, 2]]], // prettier-ignore
])("no map from %s", (_, points) => {
  expect(
    fitHomography(
      points,
      points.map(([x, y]): Point => [3 * x + 1, 2 * y]),
    ),
  ).toBeNull();
});
