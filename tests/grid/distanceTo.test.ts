import { describe, expect, test } from "vitest";
import { distanceTo } from "../../src/grid/distanceTo.ts";
import { seededRandom } from "../../src/numeric/random.ts";

describe("distance to the nearest seed", () => {
  test.each([1, 2, 3, 4])("is what a search over all seeds gives, draw %d", (seed) => {
    const random = seededRandom(seed);
    const width = 23;
    const height = 17;
    const seeds = Uint8Array.from({ length: width * height }, () =>
      random.uniform() < 0.03 * seed * seed ? 1 : 0,
    );
    const all = [...seeds.keys()].filter((i) => seeds[i] === 1);
    const distance = distanceTo(seeds, width, height);
    for (let i = 0; i < seeds.length; i++) {
      const nearest = Math.min(
        ...all.map((j) =>
          Math.hypot((i % width) - (j % width), Math.floor(i / width) - Math.floor(j / width)),
        ),
      );
      // Single precision.
      expect(distance[i]).toBeCloseTo(nearest, 4);
    }
  });

  test("is infinite without a seed", () => {
    expect([...distanceTo(new Uint8Array(12), 4, 3)].every((d) => d === Infinity)).toBe(true);
  });

  test("reaches all of a single row and a single column", () => {
    expect([...distanceTo(Uint8Array.of(0, 0, 1, 0), 4, 1)]).toEqual([2, 1, 0, 1]);
    expect([...distanceTo(Uint8Array.of(0, 0, 1, 0), 1, 4)]).toEqual([2, 1, 0, 1]);
  });
});
