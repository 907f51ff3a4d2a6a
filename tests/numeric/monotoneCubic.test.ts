import fc from "fast-check";
import { expect, test } from "vitest";
import { monotoneCubicAt, monotoneSlopes } from "../../src/numeric/monotoneCubic.ts";

const knots = fc
  .array(fc.tuple(fc.double({ min: 0.01, max: 1 }), fc.double({ min: 0, max: 1 })), {
    minLength: 2,
    maxLength: 8,
  })
  .filter((steps) => steps.every((step) => step.every(Number.isFinite)))
  .map((steps) => {
    let x = 0;
    let y = 0;
    return steps.map(([dx, dy]) => [(x += dx), (y += dy)] as const);
  });

test("the curve passes through its knots and never turns back", () => {
  fc.assert(
    fc.property(knots, (points) => {
      const x = points.map((point) => point[0]);
      const y = points.map((point) => point[1]);
      const slope = monotoneSlopes(x, y);
      points.forEach(([px, py]) => {
        expect(monotoneCubicAt(x, y, slope, px)).toBeCloseTo(py, 12);
      });
      let last = -Infinity;
      let steepestFall = 0;
      for (let i = 0; i <= 200; i++) {
        const at = x[0] - 0.2 + ((x[x.length - 1] - x[0] + 0.4) * i) / 200;
        const value = monotoneCubicAt(x, y, slope, at);
        steepestFall = Math.max(steepestFall, last - value);
        last = value;
      }
      // Rounding of a cubic whose terms cancel.
      expect(steepestFall).toBeLessThan(1e-12);
    }),
    { seed: 7, numRuns: 200 },
  );
});

test("a straight line stays straight, beyond the ends too", () => {
  const x = [0.1, 0.4, 0.5, 0.9];
  const y = x.map((value) => 2 * value + 1);
  const slope = monotoneSlopes(x, y);
  for (const at of [-1, 0.1, 0.2, 0.45, 0.8, 3])
    expect(monotoneCubicAt(x, y, slope, at)).toBeCloseTo(2 * at + 1, 12);
});

test("refuses knots that do not increase", () => {
  expect(() => monotoneSlopes([0, 0, 1], [0, 1, 2])).toThrow(RangeError);
  expect(() => monotoneSlopes([0], [0])).toThrow(RangeError);
});
