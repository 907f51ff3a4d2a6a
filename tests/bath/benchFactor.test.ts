import { describe, expect, test } from "vitest";
import { benchFactor, type FinishedInk } from "../../src/bath/benchFactor.ts";

const ink = (change: Partial<FinishedInk> = {}): FinishedInk => ({
  day: "2026-03-01",
  inkClass: "red",
  modelDeltaE00: 2,
  measuredDeltaE00: 3,
  noiseDeltaE00: 0.4,
  ...change,
});
const days = (n: number, change: Partial<FinishedInk> = {}) =>
  Array.from({ length: n }, (_, i) => ink({ day: `2026-03-${10 + i}`, ...change }));

describe("bench factor", () => {
  // Printed to two decimals by another implementation of the same normal model.
  test.each([
    [0, 0.35, 2.8],
    [1, 0.61, 1.63],
    [2, 0.65, 1.53],
    [3, 0.67, 1.49],
    [5, 0.69, 1.45],
  ])("after %d treatments that met the prediction: 90 percent: factor %d to %d", (n, low, high) => {
    const learned = benchFactor(days(n, { measuredDeltaE00: 2 }), "red");
    expect(learned.treatments).toBe(n);
    expect(learned.factor).toBeCloseTo(1, 9);
    expect(Math.abs(learned.low - low)).toBeLessThan(0.006);
    expect(Math.abs(learned.high - high)).toBeLessThan(n === 0 ? 0.06 : 0.006);
  });

  test("one finished job does most of the work: a factor of 1.5 is nearly believed", () => {
    const { factor } = benchFactor([ink()], "red");
    expect(factor).toBeGreaterThan(1.35);
    expect(factor).toBeLessThan(1.5);
  });

  test("covers of one day count as one treatment, by their mean logarithm", () => {
    const oneDay = benchFactor(
      [ink({ measuredDeltaE00: 2 }), ink({ measuredDeltaE00: 4.5 })],
      "red",
    );
    const single = benchFactor([ink({ measuredDeltaE00: 3 })], "red");
    expect(oneDay.treatments).toBe(1);
    expect(oneDay.factor).toBeCloseTo(single.factor, 9);
    expect(oneDay.logSd).toBe(single.logSd);
  });

  test.each([
    ["another class", { inkClass: "blue" }],
    ["a predicted fade under 0.3", { modelDeltaE00: 0.29 }],
    ["scan noise above half the change", { noiseDeltaE00: 1.6 }],
    ["a change that could not be measured", { measuredDeltaE00: NaN }],
    ["no change measured", { measuredDeltaE00: 0 }],
  ])("%s teaches nothing", (_, change) => {
    expect(benchFactor([ink(change)], "red").treatments).toBe(0);
  });
});
