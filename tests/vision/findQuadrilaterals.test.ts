import type { ColourImage, Quadrilateral } from "../../src/vision/quadrilateral.ts";
import { afterAll, expect, test } from "vitest";
import { seededRandom } from "../../src/numeric/random.ts";
import { findQuadrilaterals } from "../../src/vision/findQuadrilaterals.ts";
import { closeVision } from "../../src/vision/pool.ts";

afterAll(closeVision);

type Point = readonly [number, number];

const PLANES = ["grey", "red", "green", "blue"] as const;
const WIDTH = 400;
const HEIGHT = 300;

function blank(code: number): ColourImage {
  return { pixels: new Uint8Array(WIDTH * HEIGHT * 3).fill(code), width: WIDTH, height: HEIGHT };
}

/** Fills a convex polygon given clockwise on screen. */
function fill({ pixels }: ColourImage, corners: readonly Point[], colour: readonly number[]): void {
  for (let y = 0; y < HEIGHT; y++)
    for (let x = 0; x < WIDTH; x++) {
      const inside = corners.every(([ax, ay], i) => {
        const [bx, by] = corners[(i + 1) % corners.length];
        return (bx - ax) * (y - ay) - (by - ay) * (x - ax) >= 0;
      });
      if (inside) pixels.set(colour, 3 * (y * WIDTH + x));
    }
}

function square([x, y]: Point, side: number, turn: number): Point[] {
  const c = (side / 2) * Math.cos(turn);
  const s = (side / 2) * Math.sin(turn);
  return [
    [x - c + s, y - s - c],
    [x + c + s, y + s - c],
    [x + c - s, y + s + c],
    [x - c - s, y - s + c],
  ];
}

/** Of the shapes about a place (outlines of the patch itself, a little inside and a little outside) the one nearest in size. */
function shapeAt(found: readonly Quadrilateral[], [x, y]: Point, side: number): Quadrilateral {
  const here = found.filter(({ centre }) => Math.hypot(centre[0] - x, centre[1] - y) < 4);
  expect(here.length).toBeGreaterThan(0);
  return here.reduce((best, quad) =>
    Math.abs(quad.side - side) < Math.abs(best.side - side) ? quad : best,
  );
}

test("turned squares: place, size and corners clockwise", async () => {
  const image = blank(60);
  const places: Point[] = [[70, 80], [200, 90], [320, 210], [110, 220]]; // prettier-ignore
  places.forEach((place, i) => fill(image, square(place, 40, 0.4 * i), [150, 140, 130]));
  const found = await findQuadrilaterals({ image, planes: PLANES });
  for (const place of places) {
    const quad = shapeAt(found, place, 40);
    // Corners lie on whole pixels; the outline runs along pixel centres, so that it may shrink or grow by a pixel a side.
    expect(Math.hypot(quad.centre[0] - place[0], quad.centre[1] - place[1])).toBeLessThan(1.5);
    expect(Math.abs(quad.side - 40)).toBeLessThan(4);
    expect(Math.abs(quad.area / 1600 - 1)).toBeLessThan(0.15);
    const [[ax, ay], [bx, by], [cx, cy]] = quad.corners;
    expect((bx - ax) * (cy - by) - (by - ay) * (cx - bx)).toBeGreaterThan(0);
  }
});

test("in perspective the centre is where the diagonals cross, not the mean of the corners", async () => {
  const image = blank(200);
  const corners: Point[] = [[160, 120], [240, 105], [230, 200], [175, 170]]; // prettier-ignore
  fill(image, corners, [40, 40, 40]);
  // Diagonals (160,120)-(230,200) and (240,105)-(175,170) cross at 13/30 of the first.
  const crossing: Point = [190.33, 154.67];
  const found = await findQuadrilaterals({ image, planes: ["grey"] });
  const { centre } = shapeAt(found, crossing, 73);
  expect(Math.hypot(centre[0] - crossing[0], centre[1] - crossing[1])).toBeLessThan(2);
  expect(Math.hypot(centre[0] - 201.25, centre[1] - 148.75)).toBeGreaterThan(8);
});

test("a patch as light as its ground shows in another plane", async () => {
  const image = blank(0);
  for (let i = 0; i < image.pixels.length; i += 3) image.pixels.set([100, 100, 100], i);
  // Same grey by the luma weights, other colour.
  fill(image, square([200, 150], 60, 0), [170, 70, 71]);
  const grey = await findQuadrilaterals({ image, planes: ["grey"] });
  const red = await findQuadrilaterals({ image, planes: ["red"] });
  expect(grey).toHaveLength(0);
  expect(Math.abs(shapeAt(red, [200, 150], 60).side - 60)).toBeLessThan(3);
});

test("one outline is told about once, however many masks show it", async () => {
  const image = blank(60);
  fill(image, square([200, 150], 60, 0.2), [180, 170, 160]);
  const found = await findQuadrilaterals({ image, planes: PLANES });
  for (const [i, a] of found.entries())
    for (const b of found.slice(i + 1)) {
      const apart = Math.hypot(a.centre[0] - b.centre[0], a.centre[1] - b.centre[1]) / a.side;
      const areas = Math.max(a.area, b.area) / Math.min(a.area, b.area);
      expect(apart > 0.1 || areas > 1.2).toBe(true);
    }
});

test("nothing in a blank picture or of a triangle; noise gives the same twice", async () => {
  expect(await findQuadrilaterals({ image: blank(128), planes: PLANES })).toHaveLength(0);
  const triangle = blank(60);
  fill(triangle, [[100, 50], [300, 120], [120, 240]], [200, 200, 200]); // prettier-ignore
  for (const { side } of await findQuadrilaterals({ image: triangle, planes: ["grey"] }))
    expect(side).toBeLessThan(60);
  const random = seededRandom(11);
  const noisy = blank(0);
  for (let i = 0; i < noisy.pixels.length; i++) noisy.pixels[i] = 128 + 20 * random.normal();
  const first = await findQuadrilaterals({ image: noisy, planes: PLANES });
  expect(await findQuadrilaterals({ image: noisy, planes: PLANES })).toEqual(first);
});
