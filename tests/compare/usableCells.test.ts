import { describe, expect, test } from "vitest";
import { chooseCorrection } from "../../src/calibrate/chooseCorrection.ts";
import { prepareFloor } from "../../src/calibrate/prepareFloor.ts";
import { toneCurveAt } from "../../src/calibrate/toneCurveAt.ts";
import { MOST_SHARE, usableCells } from "../../src/compare/usableCells.ts";
import type { Planes } from "../../src/grid/planes.ts";
import { SCANNER, simulatedPair } from "../calibrate/simulatedPair.ts";

const pair = simulatedPair(SCANNER, { left: [1, 1, 1, 1], whitening: 0 }, 1);
const frames = [{ samples: pair.before }, { samples: pair.after }];
const choice = chooseCorrection(frames, pair.card);
const corrections = [choice.frames[0].correction, choice.frames[1].correction] as const;
const floor = prepareFloor(frames, pair.card, choice, { seed: 1 });

const [WIDTH, HEIGHT] = [20, 20];
const SIZE = WIDTH * HEIGHT;

/** Two colours side by side, labels 1 and 2. */
function planesOf(frame: 0 | 1): Planes {
  const shown = [pair.regions[0], pair.regions[1]];
  const plane = (c: number) =>
    Float32Array.from({ length: SIZE }, (_, i) => {
      const colour = shown[i % WIDTH < WIDTH / 2 ? 0 : 1];
      return toneCurveAt(
        corrections[frame].curves[c],
        (frame === 0 ? colour.before : colour.after)[c],
      );
    });
  return {
    width: WIDTH,
    height: HEIGHT,
    stepX: 1,
    stepY: 1,
    channels: [plane(0), plane(1), plane(2)],
  };
}

const shown = {
  before: planesOf(0),
  after: planesOf(1),
  corrections,
  floor,
  lightShare: 0.006,
};
const labels = Uint8Array.from({ length: SIZE }, (_, i) => (i % WIDTH < WIDTH / 2 ? 1 : 2));
const regions = {
  labels,
  inks: [],
  sheet: { mask: new Uint8Array(SIZE).fill(1), box: null, bedLab: null, notes: [] },
};
const effects = (of: (i: number) => number): Float32Array =>
  Float32Array.from({ length: SIZE }, (_, i) => of(i));

describe("cells that are measured", () => {
  test("all of a sheet on which misplacement does nothing", () => {
    const { usable, measuredShare } = usableCells(
      shown,
      regions,
      effects(() => 0),
    );
    expect(usable.every((value) => value === 1)).toBe(true);
    expect(measuredShare).toBe(1);
  });

  test("a cell is left out where the error is more than its share of the floor, and counts for half at the limit", () => {
    const none = usableCells(
      shown,
      regions,
      effects(() => 0),
    );
    const own = 1 / Math.sqrt(none.weights[0]);
    expect(own).toBeGreaterThan(0.05);
    const { usable, weights, measuredShare } = usableCells(
      shown,
      regions,
      effects((i) => (i === 0 ? 0.999 * MOST_SHARE * own : i === 1 ? 1.01 * MOST_SHARE * own : 0)),
    );
    expect([...usable.subarray(0, 3)]).toEqual([1, 0, 1]);
    expect(weights[0] / weights[2]).toBeCloseTo(1 / (1 + MOST_SHARE ** 2), 2);
    expect(weights[1]).toBe(0);
    expect(measuredShare).toBeCloseTo(1 - 1 / SIZE, 9);
  });

  test("each ink by its own floor", () => {
    const { weights } = usableCells(
      shown,
      regions,
      effects(() => 0),
    );
    expect(weights[0]).not.toBeCloseTo(weights[WIDTH - 1], 1);
  });

  test("not what the map knows nothing of, what the after scan doesn't show, what lies off the sheet", () => {
    const [r, g, b] = shown.after.channels;
    const unseen = r.map((value, i) => (i === 2 ? NaN : value));
    const mask = regions.sheet.mask.map((_, i) => (i === 3 ? 0 : 1));
    const { usable, measuredShare } = usableCells(
      { ...shown, after: { ...shown.after, channels: [unseen, g, b] } },
      { ...regions, sheet: { ...regions.sheet, mask } },
      effects((i) => (i === 1 ? NaN : 0)),
    );
    expect([...usable.subarray(0, 5)]).toEqual([1, 0, 0, 0, 1]);
    // Of the sheet: the cell that lies off it is no loss.
    expect(measuredShare).toBeCloseTo((SIZE - 3) / (SIZE - 1), 9);
  });

  test("an empty sheet has nothing measured, and doesn't crash", () => {
    const mask = new Uint8Array(SIZE);
    const { measuredShare } = usableCells(
      shown,
      { ...regions, sheet: { ...regions.sheet, mask } },
      effects(() => NaN),
    );
    expect(measuredShare).toBe(0);
  });
});
