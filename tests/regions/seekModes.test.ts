import { expect, test } from "vitest";
import type { Triple } from "../../src/numeric/triple.ts";
import { seededRandom } from "../../src/numeric/random.ts";
import type { LabImage } from "../../src/grid/labImage.ts";
import { labHistogram } from "../../src/regions/labHistogram.ts";
import { seekModes } from "../../src/regions/seekModes.ts";

interface Cloud {
  readonly lab: Triple;
  readonly cells: number;
  readonly spread?: number;
}

/** A picture of clouds of colours: where they lie in it does not matter here. */
function clouds(list: readonly Cloud[], seed = 1): LabImage {
  const random = seededRandom(seed);
  const cells = list.flatMap(({ lab, cells, spread = 1.5 }) =>
    Array.from({ length: cells }, () => lab.map((value) => value + spread * random.normal())),
  );
  const plane = (c: number): Float32Array => Float32Array.from(cells, (lab) => lab[c]);
  const size = cells.length;
  return {
    width: size,
    height: 1,
    L: plane(0),
    a: plane(1),
    b: plane(2),
    mmPerCell: 0.25,
    stepX: 1,
    stepY: 1,
  };
}

function modesOf(list: readonly Cloud[], bandwidth = 5, seed = 1) {
  const image = clouds(list, seed);
  return seekModes(labHistogram(image, new Uint8Array(image.width).fill(1)), bandwidth);
}

const THREE: readonly Cloud[] = [
  { lab: [85, 2, 15], cells: 6000 },
  { lab: [47, 54, 28], cells: 3000 },
  { lab: [42, -8, -32], cells: 1000 },
];

test("finds the centres and shares of separate colours, densest first", () => {
  const modes = modesOf(THREE);
  expect(modes).toHaveLength(3);
  modes.forEach((mode, k) => {
    expect(mode.share).toBeCloseTo(THREE[k].cells / 10_000, 3);
    // The mean of 1000 cells with 1.5 of noise is within 0.15 (three standard errors).
    mode.lab.forEach((value, c) => expect(Math.abs(value - THREE[k].lab[c])).toBeLessThan(0.15));
  });
});

test("two colours 2.5 bandwidths apart are one, 4 apart are two", () => {
  const pair = (distance: number): readonly Cloud[] => [
    { lab: [60, 0, 0], cells: 5000 },
    { lab: [60, distance, 0], cells: 5000 },
  ];
  expect(modesOf(pair(12.5))).toHaveLength(1);
  expect(modesOf(pair(20))).toHaveLength(2);
  expect(modesOf(pair(20), 8)).toHaveLength(1);
  expect(modesOf(pair(12.5), 3)).toHaveLength(2);
});

test("a colour under 0.4 % of the cells is no mode", () => {
  const rare = (cells: number): readonly Cloud[] => [...THREE, { lab: [30, 60, -60], cells }];
  expect(modesOf(rare(30))).toHaveLength(3);
  expect(modesOf(rare(60))).toHaveLength(4);
});

test("repeats under new noise and gives the same numbers twice", () => {
  const [first, again] = [modesOf(THREE, 5, 1), modesOf(THREE, 5, 1)];
  expect(again).toEqual(first);
  modesOf(THREE, 5, 2).forEach((mode, k) => {
    const distance = Math.hypot(...mode.lab.map((value, c) => value - first[k].lab[c]));
    expect(distance).toBeLessThan(0.4);
  });
});

test("an empty histogram has no modes; a bandwidth must be positive", () => {
  const image = clouds(THREE);
  const empty = labHistogram(image, new Uint8Array(image.width));
  expect(empty.total).toBe(0);
  expect(seekModes(empty, 5)).toEqual([]);
  expect(() => seekModes(empty, 0)).toThrow(RangeError);
});
