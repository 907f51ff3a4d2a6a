import { describe, expect, test } from "vitest";
import { expectByScaling } from "../../src/print/expectByScaling.ts";
import { ciede2000 } from "../../src/colour/ciede2000.ts";
import { SRGB_TO_XYZ_D65 } from "../../src/colour/srgb.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { WHITE_D65 } from "../../src/colour/whites.ts";

const D65 = { toXyz: SRGB_TO_XYZ_D65, white: WHITE_D65 };

// Computed elsewhere by the same definition (linear sRGB, Lab D65), 2 decimals; paper 88/2/14 to 89.5/1.5/11.
const rows: [Triple, Triple, number][] = [
  [[60, 35, 30], [60.81, 34.44, 28.24], 1.1],
  [[45, 55, 25], [45.44, 55.02, 23.26], 1.0],
  [[80, -2, 60], [81.24, -3.43, 59.43], 1.27],
  [[50, -15, -25], [51.26, -13.69, -27.83], 2.04],
  [[25, 1, 3], [25.6, 0.87, 1.72], 1.25],
];

describe("an untouched ink on whiter paper, channel scaling", () => {
  test.each(rows)("%j", (ink, expected, difference) => {
    const computed = expectByScaling(ink, [88, 2, 14], [89.5, 1.5, 11], D65);
    expected.forEach((value, i) => expect(computed[i]).toBeCloseTo(value, 2));
    expect(ciede2000(ink, computed)).toBeCloseTo(difference, 2);
  });

  test("unchanged paper changes nothing", () => {
    const ink: Triple = [60, 35, 30];
    expectByScaling(ink, [88, 2, 14], [88, 2, 14]).forEach((value, i) =>
      expect(value).toBeCloseTo(ink[i], 9),
    );
  });
});
