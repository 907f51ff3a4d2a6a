import { describe, expect, test } from "vitest";
import { hatched } from "../../src/picture/hatching.ts";
import {
  HEAT_MAP_COLOURS,
  HEAT_MAP_HATCHING,
  HEAT_MAP_MAX_DELTA_E00,
  heatMapColour,
} from "../../src/picture/heatMap.ts";

describe("the scale", () => {
  test("shows 0.5 and 4 well apart, and more than 4 as no value of it", () => {
    const luma = (deltaE00: number): number => {
      const [r, g, b] = heatMapColour(deltaE00);
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    };
    const steps = [0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5, 4].map(luma);
    for (let i = 1; i < steps.length; i++) expect(steps[i] - steps[i - 1]).toBeGreaterThan(10);
    expect(heatMapColour(HEAT_MAP_MAX_DELTA_E00 + 0.01)).toEqual(HEAT_MAP_COLOURS.beyondScale);
  });
});

describe("hatching", () => {
  const { belowFloor, notMeasured } = HEAT_MAP_HATCHING;

  test.each([40, 620, 2300])("has about as many lines on a picture %i px wide", (width) => {
    const at = hatched(belowFloor, width);
    let lines = 0;
    for (let x = 1; x < width; x++)
      if (at(x, 0) === belowFloor.line && at(x - 1, 0) === belowFloor.ground) lines++;
    expect(lines).toBeGreaterThan(width < 300 ? 8 : 55);
    expect(lines).toBeLessThan(90);
  });

  test("slants as it says, also above the diagonal", () => {
    const rising = hatched(belowFloor, 700);
    const falling = hatched(notMeasured, 700);
    for (const [x, y] of [
      [3, 90],
      [120, 4],
      [0, 0],
    ]) {
      // prettier-ignore
      expect(rising(x + 1, y)).toBe(rising(x, y + 1));
      expect(falling(x + 1, y + 1)).toBe(falling(x, y));
    }
  });
});
