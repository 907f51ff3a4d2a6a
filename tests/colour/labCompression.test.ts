import { expect, test } from "vitest";
import { labCompression } from "../../src/colour/labCompression.ts";

/** CIE 15:2018, 8.2.1.1. */
const EPSILON = (24 / 116) ** 3;
const byFormula = (t: number): number => (t > EPSILON ? Math.cbrt(t) : (841 / 108) * t + 16 / 116);

test("within 2e-7 of the formula: 1e-4 in a*, 2e-5 in L*", () => {
  let worst = 0;
  for (let i = 0; i <= 300_000; i++) {
    const t = i / 300_000;
    worst = Math.max(worst, Math.abs(labCompression(t) - byFormula(t)));
  }
  expect(worst).toBeLessThan(2e-7);
});

test("never falls, so that no step of light turns back", () => {
  const falls: number[] = [];
  let last = -Infinity;
  for (let i = -1000; i <= 120_000; i++) {
    const value = labCompression(i / 100_000);
    if (value < last) falls.push(i);
    last = value;
  }
  expect(falls).toEqual([]);
});

test.each([-0.02, 0, 1, 1.3, 5])("%d outside or at the ends of the tables", (t) => {
  expect(labCompression(t)).toBeCloseTo(byFormula(t), 14);
});

test("NaN stays NaN", () => {
  expect(labCompression(NaN)).toBeNaN();
});
