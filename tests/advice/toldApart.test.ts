import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { deltaBeside, limitShare, shareBeside } from "../../src/advice/toldApart.ts";

describe("a figure beside its limit is printed with the decimal that decides", () => {
  test.each([
    [0.24, 0.1, "24 %", "10 %"],
    [0.104, 0.1, "10.4 %", "10 %"],
    [0.0996, 0.1, "9.96 %", "10 %"],
    [0.1, 0.1, "10 %", "10 %"],
    [0.127, 0.125, "13 %", "12.5 %"],
    [0.123, 0.125, "12 %", "12.5 %"],
    [0.004, 0.1, "under 1 %", "10 %"],
    [0.004, 0.005, "0.4 %", "0.5 %"],
    [0, 0.1, "0 %", "10 %"],
  ])("risk %d, accepted %d: %s beside %s", (risk, limit, share, accepted) => {
    expect(shareBeside(risk, limit)).toBe(share);
    expect(limitShare(limit)).toBe(accepted);
  });

  test.each([
    [3.94, 2, "3.9"],
    [2.04, 2, "2.04"],
    [1.96, 2, "1.96"],
    [1.9996, 2, "1.9996"],
    [2, 2, "2.0"],
  ])("%d dE00 beside %d: %s", (value, limit, text) => {
    expect(deltaBeside(value, limit)).toBe(text);
  });

  test("what is above a limit never prints as the limit or below it", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 9999 }), fc.integer({ min: 1, max: 9999 }), (a, b) => {
        fc.pre(a !== b);
        const [risk, limit] = [a / 10_000, b / 10_000];
        const shown = shareBeside(risk, limit);
        const value = shown === "under 1 %" ? 0.5 : Number.parseFloat(shown);
        expect(value > 100 * limit).toBe(risk > limit);
      }),
      { seed: 7, numRuns: 500 },
    );
  });
});
