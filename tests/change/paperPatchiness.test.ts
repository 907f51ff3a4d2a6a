import { describe, expect, test } from "vitest";
import {
  type LabPair,
  paperPatchiness,
  PATCH_MM,
  patchinessUnder,
} from "../../src/change/paperPatchiness.ts";
import { seededRandom } from "../../src/numeric/random.ts";

const MM = 0.5;
const SIDE = PATCH_MM / MM;
const ACROSS = 6;
const WIDTH = ACROSS * SIDE;

/** A sheet of 36 patches, each of which changed in L* by its own amount, in noise of 0.5 a cell. */
function patchySheet(change: (patch: number) => number): LabPair {
  const random = seededRandom(5);
  const size = WIDTH * WIDTH;
  const flat = (value: number): Float32Array => new Float32Array(size).fill(value);
  const L = Float32Array.from({ length: size }, (_, i) => {
    const patch =
      Math.floor(Math.floor(i / WIDTH) / SIDE) * ACROSS + Math.floor((i % WIDTH) / SIDE);
    return 78 + change(patch) + 0.5 * random.normal();
  });
  return {
    before: [flat(78), flat(4), flat(19)],
    after: [L, flat(3), flat(16)],
    width: WIDTH,
    mmPerCell: MM,
  };
}

const ALL = Int32Array.from({ length: WIDTH * WIDTH }, (_, i) => i);

describe("patchiness of the paper", () => {
  const random = seededRandom(9);
  const changes = Array.from({ length: ACROSS * ACROSS }, () => 2 + random.normal());
  const pair = patchySheet((patch) => changes[patch]);

  test("is the variance between patches, not the noise within", () => {
    const { covariance, patches } = paperPatchiness(pair, ALL);
    expect(patches).toBe(36);
    const mean = changes.reduce((a, b) => a + b) / 36;
    const variance = changes.reduce((sum, c) => sum + (c - mean) ** 2, 0) / 35;
    // The noise of a patch mean is 0.5/50.
    expect(covariance[0]).toBeCloseTo(variance, 1);
    expect(covariance[4]).toBeCloseTo(0, 9);
    const even = paperPatchiness(
      patchySheet(() => 2),
      ALL,
    );
    expect(even.covariance[0]).toBeLessThan(0.001);
  });

  test("weighs more on an ink of one patch than on one all over", () => {
    const patchiness = paperPatchiness(pair, ALL);
    const onePatch = ALL.filter((i) => i % WIDTH < SIDE && i < SIDE * WIDTH);
    const one = patchinessUnder(patchiness, pair, onePatch)[0];
    const all = patchinessUnder(patchiness, pair, ALL)[0];
    expect(one).toBeCloseTo(patchiness.covariance[0] * (1 + 1 / 36), 9);
    expect(all).toBeCloseTo(patchiness.covariance[0] * (2 / 36), 9);
  });
});
