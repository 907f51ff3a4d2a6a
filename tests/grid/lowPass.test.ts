import { describe, expect, test } from "vitest";
import { boxRadius, lowPass } from "../../src/grid/lowPass.ts";
import { seededRandom } from "../../src/numeric/random.ts";
import type { Planes } from "../../src/grid/planes.ts";

function planesOf(width: number, height: number, value: (x: number, y: number) => number): Planes {
  const plane = (): Float32Array =>
    Float32Array.from({ length: width * height }, (_, i) =>
      value(i % width, Math.floor(i / width)),
    );
  return { width, height, stepX: 1, stepY: 1, channels: [plane(), plane(), plane()] };
}

describe("low-pass", () => {
  test("the box radius for 1 mm at 150 dpi is 2 cells, a box of 5", () => {
    expect(boxRadius(1, 25.4 / 150)).toBe(2);
  });

  test("an even picture stays as it is, up to the rounding of single precision", () => {
    const [r] = lowPass(
      planesOf(30, 20, () => 0.37),
      2,
    ).channels;
    for (const value of r) expect(value).toBeCloseTo(0.37, 6);
  });

  test("a point spreads to a full width at half maximum of about 1 mm", () => {
    const mmPerCell = 25.4 / 150;
    const [r] = lowPass(
      planesOf(61, 61, (x, y) => (x === 30 && y === 30 ? 1 : 0)),
      2,
    ).channels;
    const profile = Array.from({ length: 61 }, (_, x) => r[30 * 61 + x]);
    const wide = profile.filter((value) => value >= profile[30] / 2).length * mmPerCell;
    // Counted in whole cells of 0.17 mm.
    expect(Math.abs(wide - 1)).toBeLessThanOrEqual(0.2);
  });

  test("away from the edge it equals the slow triple mean", () => {
    const random = seededRandom(3);
    const source = planesOf(25, 25, () => random.uniform());
    const slow = (values: number[][]): number[][] =>
      values.map((line, y) =>
        line.map((_, x) => {
          let sum = 0;
          let count = 0;
          for (let dy = -2; dy <= 2; dy++)
            for (let dx = -2; dx <= 2; dx++) {
              const value = values[y + dy]?.[x + dx];
              if (value !== undefined) {
                sum += value;
                count++;
              }
            }
          return sum / count;
        }),
      );
    let expected = Array.from({ length: 25 }, (_, y) =>
      Array.from(source.channels[0].subarray(25 * y, 25 * y + 25)),
    );
    for (let pass = 0; pass < 3; pass++) expected = slow(expected);
    const [r] = lowPass(source, 2).channels;
    expect(r[12 * 25 + 12]).toBeCloseTo(expected[12][12], 5);
    expect(r[0]).toBeCloseTo(expected[0][0], 5);
  });
});
