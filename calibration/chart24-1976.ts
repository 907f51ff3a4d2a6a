import type { Triple } from "../src/numeric/triple.ts";

/**
 * Published chromaticity x, y and luminance factor Y (0..1) under CIE illuminant C, 2 degree observer, row-major:
 * McCamy, Marcus & Davidson, J. Appl. Photogr. Eng. 2(3), 95-99 (1976).
 * Figures read from colour-science/colour @9d743142, colour/characterisation/datasets/colour_checkers/chromaticity_coordinates.py
 * (BSD-3-Clause).
 */
// prettier-ignore
export const CHART24_1976_XYY_C: readonly Triple[] = [
  [0.4002, 0.3504, 0.1005], // dark skin
  [0.3773, 0.3446, 0.3582], // light skin
  [0.2470, 0.2514, 0.1933], // blue sky
  [0.3372, 0.4220, 0.1329], // foliage
  [0.2651, 0.2400, 0.2427], // blue flower
  [0.2608, 0.3430, 0.4306], // bluish green
  [0.5060, 0.4070, 0.3005], // orange
  [0.2110, 0.1750, 0.1200], // purplish blue
  [0.4533, 0.3058, 0.1977], // moderate red
  [0.2845, 0.2020, 0.0656], // purple
  [0.3800, 0.4887, 0.4429], // yellow green
  [0.4729, 0.4375, 0.4306], // orange yellow
  [0.1866, 0.1285, 0.0611], // blue
  [0.3046, 0.4782, 0.2339], // green
  [0.5385, 0.3129, 0.1200], // red
  [0.4480, 0.4703, 0.5910], // yellow
  [0.3635, 0.2325, 0.1977], // magenta
  [0.1958, 0.2519, 0.1977], // cyan
  [0.3101, 0.3163, 0.9001], // white 9.5
  [0.3101, 0.3163, 0.5910], // neutral 8
  [0.3101, 0.3163, 0.3620], // neutral 6.5
  [0.3101, 0.3163, 0.1977], // neutral 5
  [0.3101, 0.3163, 0.0900], // neutral 3.5
  [0.3101, 0.3163, 0.0313], // black 2
];
