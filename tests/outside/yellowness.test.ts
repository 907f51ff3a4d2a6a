import { describe, expect, test } from "vitest";
import { E313_CONSTANTS, yellownessE313 } from "../../src/colour/yellowness.ts";
import { yellownessOfLab } from "../../src/colour/yellownessOfLab.ts";

describe("yellowness index, ASTM E313 (values of colour-science/colour, test_yellowness.py)", () => {
  test.each([
    ["D65/2", 4.34],
    ["C/2", 10.0895],
    ["C/10", 9.074],
    ["D65/10", 2.8945],
  ] as const)("XYZ 95 100 105 under %s", (conditions, printed) => {
    expect(yellownessE313([95, 100, 105], conditions)).toBeCloseTo(printed, 3);
  });

  test("XYZ 75 78 60 under D65/2", () => {
    expect(yellownessE313([75, 78, 60])).toBeCloseTo(37.6635, 3);
  });

  test("a perfect white has an index of about 0 under each set of constants (ASTM E308 whites)", () => {
    const whites = {
      "C/2": [98.074, 100, 118.232],
      "D65/2": [95.047, 100, 108.883],
      "C/10": [97.285, 100, 116.145],
      "D65/10": [94.811, 100, 107.304],
    } as const;
    // The constants were chosen for these whites: what is left, 0.0007, is the rounding of their fourth decimal.
    for (const name of Object.keys(E313_CONSTANTS) as (keyof typeof whites)[])
      expect(Math.abs(yellownessE313(whites[name], name))).toBeLessThan(0.001);
  });

  test("a ratio: the scale of XYZ does not count, and black has none", () => {
    expect(yellownessE313([0.95, 1, 1.05])).toBeCloseTo(4.34, 3);
    expect(yellownessE313([0, 0, 0])).toBeNaN();
  });

  test("paper known by its Lab: 28.37 and 22.29 (the same route, worked elsewhere, 2 decimals)", () => {
    expect(yellownessOfLab([88, 2, 14])).toBeCloseTo(28.37, 2);
    expect(yellownessOfLab([89.5, 1.5, 11])).toBeCloseTo(22.29, 2);
  });
});
