import type { Point } from "../../src/numeric/point.ts";
import { expect, test } from "vitest";
import { fitHomographyRobust } from "../../src/card/fitHomographyRobust.ts";
import { applyHomography } from "../../src/card/homography.ts";
import type { Matrix3 } from "../../src/numeric/matrix3.ts";
import { seededRandom } from "../../src/numeric/random.ts";

const TRUE: Matrix3 = [60, -20, 300, 25, 55, 100, 0.05, 0.06, 1];
const lattice = Array.from({ length: 24 }, (_, i): Point => [i % 6, Math.floor(i / 6)]);

test("a third of the points wrong: the others decide", () => {
  const random = seededRandom(2);
  const seen = lattice.map((p, i): Point => {
    const [x, y] = applyHomography(TRUE, p);
    const off = i % 3 === 1 ? 20 + 30 * random.uniform() : 0;
    return [x + off + 0.2 * random.normal(), y + off + 0.2 * random.normal()];
  });
  const fit = fitHomographyRobust(lattice, seen, 2);
  expect(fit?.inliers).toEqual(lattice.map((_, i) => i).filter((i) => i % 3 !== 1));
  for (const p of lattice) {
    const [x, y] = applyHomography(fit?.H ?? TRUE, p);
    const [tx, ty] = applyHomography(TRUE, p);
    // 16 points of deviation 0.2 fix the map to a fraction of that; corners are extrapolated a little.
    expect(Math.hypot(x - tx, y - ty)).toBeLessThan(0.6);
  }
  expect(fitHomographyRobust(lattice, seen, 2)).toEqual(fit);
});

test("too few points, or points on one line", () => {
  const line = lattice.map((_, i): Point => [i, i]);
  expect(fitHomographyRobust(lattice.slice(0, 3), line.slice(0, 3), 1)).toBeNull();
  expect(fitHomographyRobust(line, line, 1)).toBeNull();
  expect(fitHomographyRobust([], [], 1)).toBeNull();
});
