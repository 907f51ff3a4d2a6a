import { describe, expect, test } from "vitest";
import { benchFactor } from "../../src/bath/benchFactor.ts";
import { comparePrediction } from "../../src/bath/comparePrediction.ts";

const predicted = [
  { id: "red", inkClass: "red", low: 0.5, mid: 1.5, high: 4, modelDeltaE00: 1.5 },
  { id: "blue", inkClass: "blue", low: 0, mid: 0.05, high: 0.4, modelDeltaE00: 0.05 },
  { id: "green", inkClass: "green", low: 1, mid: 2, high: 3, modelDeltaE00: 2 },
];
const seen = (id: string, inkPartDeltaE00: number | null, floorDeltaE00: number | null = 0.5) => ({
  id,
  inkPartDeltaE00,
  floorDeltaE00,
});

describe("prediction beside measurement", () => {
  test("inside, under the floor, outside, missing on either side", () => {
    const { inks, coverage } = comparePrediction(
      predicted,
      [seen("red", 2.2), seen("blue", 0.3), seen("green", 5), seen("yellow", 1)],
      "2026-04-01",
    );
    expect(inks.map(({ id, inside }) => [id, inside])).toEqual([
      ["red", true],
      ["blue", true], // under the floor, and the range reaches below it
      ["green", false],
      ["yellow", null],
    ]);
    expect(coverage).toBeCloseTo(2 / 3, 12);
  });

  test("no change shown where a clear loss was predicted is outside", () => {
    const { inks } = comparePrediction(predicted, [seen("green", 0.1)], "2026-04-01");
    expect(inks.find(({ id }) => id === "green")?.inside).toBe(false);
  });

  test("nothing to compare: no coverage, nothing taught", () => {
    expect(comparePrediction(predicted, [], "2026-04-01")).toMatchObject({
      coverage: null,
      finished: [],
    });
    expect(comparePrediction([], [seen("red", 1)], "2026-04-01").coverage).toBeNull();
  });

  test("teaches the bench factor the ratio to the model, and only where the change is clear", () => {
    const { finished } = comparePrediction(
      predicted,
      [seen("red", 3), seen("blue", 0.3)],
      "2026-04-01",
    );
    expect(benchFactor(finished, "red").treatments).toBe(1);
    expect(benchFactor(finished, "red").factor).toBeGreaterThan(1.5);
    expect(benchFactor(finished, "blue").treatments).toBe(0);
    const noFloor = comparePrediction(predicted, [seen("red", 3, null)], "2026-04-01").finished;
    expect(benchFactor(noFloor, "red").treatments).toBe(0);
  });
});
