import { expect, test } from "vitest";
import { edgeMask } from "../../src/regions/edgeMask.ts";
import type { LabImage } from "../../src/grid/labImage.ts";
import { sharpenEdges } from "../../src/regions/sharpenEdges.ts";

const WIDTH = 40;
const HEIGHT = 5;

/** A picture that varies along x only. */
function profile(L: (x: number) => number, b: (x: number) => number, mmPerCell: number): LabImage {
  const plane = (f: (x: number) => number): Float32Array =>
    Float32Array.from({ length: WIDTH * HEIGHT }, (_, i) => f(i % WIDTH));
  return {
    width: WIDTH,
    height: HEIGHT,
    L: plane(L),
    a: plane(() => 0),
    b: plane(b),
    mmPerCell,
    stepX: 1,
    stepY: 1,
  };
}

function row(plane: ArrayLike<number>): number[] {
  return Array.from({ length: WIDTH }, (_, x) => plane[2 * WIDTH + x]);
}

test("marks cells that differ by 4 CIELAB or more from a point 0.25 mm away, on both sides of the step", () => {
  const step = (height: number) =>
    profile(
      (x) => (x < 20 ? 60 : 60 + height),
      () => 0,
      0.125,
    );
  const marked = (image: LabImage): number[] =>
    row(edgeMask(image)).flatMap((m, x) => (m === 1 ? [x] : []));
  // 0.25 mm are two cells.
  expect(marked(step(4))).toEqual([18, 19, 20, 21]);
  expect(marked(step(3.9))).toEqual([]);
  // Root of the sum of squares over L*, a*, b*: 3 and 3 make 4.24.
  const both = profile(
    (x) => (x < 20 ? 60 : 63),
    (x) => (x < 20 ? 0 : 3),
    0.125,
  );
  expect(marked(both)).toEqual([18, 19, 20, 21]);
});

test("a gradient counts by its slope", () => {
  // 4 in 0.25 mm is 2 a cell.
  expect(
    row(
      edgeMask(
        profile(
          (x) => 2 * x,
          () => 0,
          0.125,
        ),
      ),
    ).every((m) => m === 1),
  ).toBe(true);
  expect(
    row(
      edgeMask(
        profile(
          (x) => 1.9 * x,
          () => 0,
          0.125,
        ),
      ),
    ).every((m) => m === 0),
  ).toBe(true);
});

test("a cell without data makes no edge", () => {
  const image = profile(
    (x) => (x === 20 ? NaN : 60),
    () => 0,
    0.25,
  );
  expect(row(edgeMask(image)).every((m) => m === 0)).toBe(true);
});

test("sharpened, a blurred step between two inks holds their two colours only, the half way in the middle", () => {
  const ramp = (x: number): number => Math.min(1, Math.max(0, (x - 15.5) / 8));
  const image = profile(
    (x) => 80 - 40 * ramp(x),
    (x) => 60 - 20 * ramp(x),
    0.125,
  );
  const crisp = sharpenEdges(image, edgeMask(image));
  const L = row(crisp.L);
  expect(L.slice(0, 19).every((value) => value >= 76)).toBe(true);
  expect(L.slice(21).every((value) => value <= 44)).toBe(true);
});

test("sharpened, a thin dark line stays dark", () => {
  const image = profile(
    (x) => 80 - 50 * Math.exp(-(((x - 20) / 3) ** 2)),
    () => 0,
    0.125,
  );
  const crisp = sharpenEdges(image, edgeMask(image));
  expect(row(crisp.L)[20]).toBeCloseTo(30, 3);
  expect(row(crisp.L)[19]).toBeLessThan(40);
});
