import { expect, test } from "vitest";
import { seededRandom } from "../../src/numeric/random.ts";
import { farFrom } from "../../src/grid/farFrom.ts";

test("equals the distances to all seeds, for whole and broken radii", () => {
  const random = seededRandom(11);
  const width = 37;
  const height = 23;
  for (const radius of [0.5, 1, 1.01, 2, 2.3, 3.5, 6, 60]) {
    const seeds = new Uint8Array(width * height);
    for (let n = 0; n < 5; n++) seeds[random.below(seeds.length)] = 1;
    const far = farFrom(seeds, width, height, radius);
    for (let i = 0; i < far.length; i++) {
      let least = Infinity;
      for (let j = 0; j < seeds.length; j++)
        if (seeds[j] === 1)
          least = Math.min(
            least,
            Math.hypot((i % width) - (j % width), Math.floor(i / width) - Math.floor(j / width)),
          );
      expect(far[i], `radius ${radius}, cell ${i}`).toBe(least >= radius ? 1 : 0);
    }
  }
});

test("without seeds all cells are far", () => {
  expect(farFrom(new Uint8Array(12), 4, 3, 2)).toEqual(new Uint8Array(12).fill(1));
});

test("refuses a radius that can't be counted", () => {
  expect(() => farFrom(new Uint8Array(4), 2, 2, 0)).toThrow(RangeError);
  expect(() => farFrom(new Uint8Array(4), 2, 2, 300)).toThrow(RangeError);
});
