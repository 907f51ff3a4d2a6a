import { expect, test } from "vitest";
import { THRESHOLDS, softLevel } from "../../sample-images/scene/screen.ts";

/** Mean of the softened dots over one screen cell. */
function printed(coverage: number, softness: number): number {
  const level = softLevel(coverage, softness);
  let sum = 0;
  for (const rank of THRESHOLDS) sum += Math.min(1, Math.max(0, (level - rank) / softness + 0.5));
  return sum / THRESHOLDS.length;
}

test("a screen prints the coverage it was asked for, soft or sharp", () => {
  // The tile holds 65536 ranks: steps of 1.5e-5; the corners near 0 and 1 average a square root over them.
  for (const softness of [0.02, 0.15, 0.4, 1])
    for (const coverage of [0, 0.01, 0.05, 0.3, 0.5, 0.85, 0.97, 1])
      expect(Math.abs(printed(coverage, softness) - coverage)).toBeLessThan(2e-4);
});

test("dots are round and centred: the first rank lies in the cell's corner, opposite ones are equal", () => {
  const tile = Math.sqrt(THRESHOLDS.length);
  const spot = (row: number, column: number): number => THRESHOLDS[row * tile + column];
  expect(spot(0, 0)).toBeLessThan(0.001);
  expect(spot(tile / 2, tile / 2)).toBeGreaterThan(0.999);
  // Ties share neighbouring ranks: at most eight points have one value.
  expect(Math.abs(spot(10, 40) - spot(40, 10))).toBeLessThan(8 / THRESHOLDS.length);
});
