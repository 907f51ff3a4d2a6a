import { describe, expect, test } from "vitest";
import { bathSeries } from "../../src/bath/bathSeries.ts";
import { alike, possibleStarts } from "../../src/bath/likeRun.ts";

const RINSE = { kind: "rinse", surfactant: false, ph: 8.2, temperatureC: 30 } as const;
const amount = (mid: number) => ({ low: 0.8 * mid, mid, high: 1.2 * mid });
const bath = (mid: number, minutes: number | null = 5, more: object = {}) => ({
  ...RINSE,
  minutes,
  volumeMl: 500,
  perCm: amount(mid),
  ...more,
});

describe("which baths may be fitted together", () => {
  test("what isn't stated is neither the same nor another, unless something stated differs", () => {
    expect(alike(RINSE, { ...RINSE, ph: 8.6 })).toBe(true);
    expect(alike(RINSE, { ...RINSE, ph: null })).toBeNull();
    expect(alike({ ...RINSE, ph: null }, { ...RINSE, ph: null })).toBeNull();
    expect(alike(RINSE, { ...RINSE, surfactant: null })).toBeNull();
    expect(alike(RINSE, { ...RINSE, ph: null, temperatureC: 38 })).toBe(false);
  });

  test("a bath that may or may not be like the last leaves two starts", () => {
    expect(possibleStarts([RINSE, RINSE, RINSE])).toEqual([0]);
    expect(possibleStarts([RINSE, { ...RINSE, ph: 7 }, RINSE])).toEqual([2]);
    expect(possibleStarts([RINSE, { ...RINSE, ph: null }, RINSE])).toEqual([2, 0]);
    expect(possibleStarts([RINSE])).toEqual([0]);
  });
});

describe("what is forecast where something isn't stated", () => {
  test("every run that is possible has its own forecast", () => {
    const known = bathSeries([bath(0.03), bath(0.015)], 20, 500);
    expect(known.forecasts).toHaveLength(1);
    const unknown = bathSeries([bath(0.03), bath(0.015, 5, { temperatureC: null })], 20, 500);
    expect(unknown.forecasts).toHaveLength(2);
    expect(unknown.forecasts).toContainEqual(known.forecasts[0]);
  });

  test("a rise that hangs on an unstated condition is neither a rise nor none", () => {
    expect(bathSeries([bath(0.004), bath(0.03)], 20, 500).rising).toBe(true);
    expect(bathSeries([bath(0.004, 5, { ph: null }), bath(0.03)], 20, 500).rising).toBeNull();
  });

  test("minutes that nobody stated are not those of the next bath", () => {
    expect(bathSeries([bath(0.03, null), bath(0.015)], 20, 500).forecasts).toEqual([]);
    expect(bathSeries([bath(0.03, null)], 20, 500, 5).forecasts).toEqual([]);
    // One bath, and the next as long as it was.
    expect(bathSeries([bath(0.03, null)], 20, 500).forecasts).toHaveLength(1);
  });

  test("without one bath's photo there is no total", () => {
    expect(bathSeries([bath(0.03), bath(0, 5, { perCm: null })], 20, 500).total).toBeNull();
  });
});
