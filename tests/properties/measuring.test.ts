import type { Point } from "../../src/numeric/point.ts";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { differenceInterval } from "../../src/calibrate/differenceInterval.ts";
import { applyHomography, fitHomography } from "../../src/card/homography.ts";
import { lowPass } from "../../src/grid/lowPass.ts";
import { inkVerdict } from "../../src/change/verdicts.ts";
import { chiSquaredQuantile } from "../../src/numeric/chiSquared.ts";
import { seededRandom } from "../../src/numeric/random.ts";
import { quantile } from "../../src/numeric/statistics.ts";
import type { Planes } from "../../src/grid/planes.ts";

const SEEDED = { seed: 21, numRuns: 200 };
const finite = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const SQUARE: readonly Point[] = [
  [0, 0],
  [1, 0],
  [1, 1],
  [0, 1],
];

describe("laws of measuring", () => {
  test("a homography through four moved corners goes there, and its fit the other way comes back", () => {
    const nudge = finite(-0.2, 0.2);
    fc.assert(
      fc.property(fc.array(fc.tuple(nudge, nudge), { minLength: 4, maxLength: 4 }), (nudges) => {
        const moved = SQUARE.map(([x, y], i): Point => [x + nudges[i][0], y + nudges[i][1]]);
        const there = fitHomography(SQUARE, moved);
        const back = fitHomography(moved, SQUARE);
        if (there === null || back === null) throw new Error("four corners span a plane");
        const [x, y] = applyHomography(back, applyHomography(there, [0.3, 0.6]));
        expect(Math.hypot(x - 0.3, y - 0.6)).toBeLessThan(1e-9);
      }),
      SEEDED,
    );
  });

  test("the low-pass is linear in the light", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1000 }), finite(0.1, 10), (seed, gain) => {
        const random = seededRandom(seed);
        const source = Float32Array.from({ length: 144 }, () => random.uniform());
        const planes = (plane: Float32Array): Planes => ({
          width: 12,
          height: 12,
          stepX: 1,
          stepY: 1,
          channels: [plane, plane, plane],
        });
        const once = lowPass(planes(source), 2).channels[0];
        const scaled = lowPass(planes(source.map((v) => gain * v)), 2).channels[0];
        // Single precision, six passes.
        once.forEach((v, i) => expect(Math.abs(scaled[i] - gain * v)).toBeLessThan(2e-5 * gain));
      }),
      { ...SEEDED, numRuns: 40 },
    );
  });

  test("quantiles lie between the smallest and the largest and rise with the share", () => {
    fc.assert(
      fc.property(
        fc.array(finite(-1e3, 1e3), { minLength: 1, maxLength: 30 }),
        finite(0, 1),
        finite(0, 1),
        (values, p, q) => {
          const [low, high] = [Math.min(p, q), Math.max(p, q)];
          expect(quantile(values, low)).toBeLessThanOrEqual(quantile(values, high));
          expect(quantile(values, 0)).toBe(Math.min(...values));
          expect(quantile(values, 1)).toBe(Math.max(...values));
        },
      ),
      SEEDED,
    );
  });

  test("chi-squared quantiles rise with level and with degrees of freedom", () => {
    fc.assert(
      fc.property(finite(0.05, 0.98), finite(0.5, 30), (level, freedom) => {
        expect(chiSquaredQuantile(level + 0.01, freedom)).toBeGreaterThan(
          chiSquaredQuantile(level, freedom),
        );
        expect(chiSquaredQuantile(level, freedom + 0.5)).toBeGreaterThan(
          chiSquaredQuantile(level, freedom),
        );
      }),
      SEEDED,
    );
  });

  test("the interval of a difference holds it from above, and widens with its spread", () => {
    fc.assert(
      fc.property(finite(0, 8), finite(0.01, 0.5), finite(1, 3), (measured, g, h) => {
        const narrow = differenceInterval(measured, { g, h });
        const wide = differenceInterval(measured, { g: 4 * g, h });
        expect(narrow.low).toBeGreaterThanOrEqual(0);
        expect(narrow.low).toBeLessThanOrEqual(measured);
        expect(narrow.high).toBeGreaterThanOrEqual(measured);
        expect(wide.low).toBeLessThanOrEqual(narrow.low + 1e-9);
      }),
      SEEDED,
    );
  });

  test("95 of 100 intervals hold the true distance (three dimensions, seeded normal error)", () => {
    const random = seededRandom(5);
    const sd = 0.2;
    const rounds = 500;
    for (const truth of [0, 0.3, 1, 3]) {
      let held = 0;
      for (let i = 0; i < rounds; i++) {
        const measured = Math.hypot(
          truth + sd * random.normal(),
          sd * random.normal(),
          sd * random.normal(),
        );
        const { low, high } = differenceInterval(measured, { g: sd * sd, h: 3 });
        if (low <= truth && truth <= high) held++;
      }
      // Three standard errors of a share of 0.95 in 500 rounds are 0.029; more than 0.95 is no fault.
      expect(held / rounds).toBeGreaterThan(0.921);
    }
  });

  test("a higher floor never turns silence into a claim", () => {
    fc.assert(
      fc.property(finite(0, 5), finite(0, 3), finite(0, 2), (difference, floor, more) => {
        const claims = (at: number) => inkVerdict(difference, at, null) === "changed";
        if (!claims(floor)) expect(claims(floor + more)).toBe(false);
      }),
      SEEDED,
    );
  });
});
