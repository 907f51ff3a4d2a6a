import type { Point } from "../../src/numeric/point.ts";
import { expect, test } from "vitest";
import { seededRandom } from "../../src/numeric/random.ts";
import { convexHull } from "../../src/grid/convexHull.ts";
import { fillPolygon, insidePolygon } from "../../src/grid/polygon.ts";
import { onRegion } from "../../src/register/sheetRegion.ts";

const slanted: Point[] = [
  [3.2, 2.1],
  [25.7, 6.3],
  [21.4, 17.8],
  [-4.3, 11.2],
];

test("filled pixels are those whose centre lies inside", () => {
  const mask = new Uint8Array(30 * 20);
  fillPolygon(mask, 30, slanted, 1);
  for (let y = 0; y < 20; y++)
    for (let x = 0; x < 30; x++)
      expect(mask[y * 30 + x]).toBe(insidePolygon(slanted, x, y) ? 1 : 0);
  expect(mask.includes(1)).toBe(true);
});

test("a hull holds its points, and only corners that are points", () => {
  const random = seededRandom(5);
  const points = Array.from({ length: 80 }, (): Point => [random.normal(), random.normal()]);
  const hull = convexHull(points);
  expect(hull.every((corner) => points.includes(corner))).toBe(true);
  for (const [x, y] of points)
    expect(
      insidePolygon(
        hull.map(([u, v]) => [1.001 * u, 1.001 * v]),
        x,
        y,
      ),
    ).toBe(true);
  expect(convexHull(hull)).toHaveLength(hull.length);
});

test("a region has a margin and exclusions", () => {
  const outline: Point[] = [
    [0, 0],
    [100, 0],
    [100, 50],
    [0, 50],
  ];
  const card: Point[] = [
    [80, 0],
    [100, 0],
    [100, 20],
    [80, 20],
  ];
  const region = { outline, excluded: [card] };
  expect(onRegion(region, 50, 25, 0)).toBe(true);
  expect(onRegion(region, 90, 10, 0)).toBe(false);
  expect(onRegion(region, 50, 55, 0)).toBe(false);
  expect(onRegion(region, 50, 55, 6)).toBe(true);
  expect(onRegion({ outline: null, excluded: [card] }, -900, 0, 0)).toBe(true);
});
