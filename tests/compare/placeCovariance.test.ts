import { expect, test } from "vitest";
import { placeCovariance } from "../../src/compare/placeCovariance.ts";
import type { LabPlanes } from "../../src/change/differenceMap.ts";

const [WIDTH, HEIGHT, MM] = [80, 80, 0.5];
const all = Int32Array.from({ length: WIDTH * HEIGHT }, (_, i) => i).filter((i) => {
  const [x, y] = [i % WIDTH, Math.floor(i / WIDTH)];
  return x > 0 && y > 0 && x < WIDTH - 1 && y < HEIGHT - 1;
});
const even = (value: number): Float32Array => new Float32Array(WIDTH * HEIGHT).fill(value);
const lightness = (of: (x: number, y: number) => number): LabPlanes => [
  Float32Array.from({ length: WIDTH * HEIGHT }, (_, i) => of(i % WIDTH, Math.floor(i / WIDTH))),
  even(0),
  even(0),
];
const sdOfL = (lab: LabPlanes, sigma: number, cells = all): number =>
  Math.sqrt(
    placeCovariance(
      { before: lab, after: lab, width: WIDTH, height: HEIGHT, mmPerCell: MM },
      even(sigma),
      cells,
      even(3),
    )[0],
  );

test("a slope over the whole area is displaced as one: sigma times its steepness", () => {
  // 0.4 L* a cell of 0.5 mm, 0.05 mm off.
  expect(
    sdOfL(
      lightness((x) => 30 + 0.4 * x),
      0.05,
    ),
  ).toBeCloseTo(0.8 * 0.05, 5);
});

test("slopes of opposite sides of a drawing cancel within a node's spacing, those of flat colour are nothing", () => {
  const slope = sdOfL(
    lightness((x) => 30 + 0.4 * x),
    0.05,
  );
  // Lines of 2 mm, as steep.
  const lines = sdOfL(
    lightness((x) => 30 + 0.8 * Math.abs((x % 4) - 2)),
    0.05,
  );
  expect(lines).toBeLessThan(0.1 * slope);
  expect(
    sdOfL(
      lightness(() => 60),
      0.5,
    ),
  ).toBe(0);
});

test("steepness that turns from block to block errs block by block and averages, but not to nothing", () => {
  const block = 12; // 6 mm
  const turning = sdOfL(
    lightness((x) => 30 + 0.4 * Math.abs((x % (2 * block)) - block)),
    0.05,
  );
  expect(turning).toBeGreaterThan(0.002);
  expect(turning).toBeLessThan(0.5 * 0.8 * 0.05);
});

test("no cells, no error told", () => {
  expect(
    sdOfL(
      lightness((x) => x),
      0.05,
      new Int32Array(0),
    ),
  ).toBe(0);
});
