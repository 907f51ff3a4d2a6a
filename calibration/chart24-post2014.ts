import type { Triple } from "../src/numeric/triple.ts";

/**
 * Maker's values for charts made from November 2014 on: CIELAB D50, 2 degree observer, row-major.
 * Figures read from colour-science/colour @9d743142, colour/characterisation/datasets/colour_checkers/chromaticity_coordinates.py
 * (BSD-3-Clause).
 */
// prettier-ignore
export const CHART24_POST2014_LAB: readonly Triple[] = [
  [37.54, 14.37, 14.92], // dark skin
  [64.66, 19.27, 17.50], // light skin
  [49.32, -3.82, -22.54], // blue sky
  [43.46, -12.74, 22.72], // foliage
  [54.94, 9.61, -24.79], // blue flower
  [70.48, -32.26, -0.37], // bluish green
  [62.73, 35.83, 56.50], // orange
  [39.43, 10.75, -45.17], // purplish blue
  [50.57, 48.64, 16.67], // moderate red
  [30.10, 22.54, -20.87], // purple
  [71.77, -24.13, 58.19], // yellow green
  [71.51, 18.24, 67.37], // orange yellow
  [28.37, 15.42, -49.80], // blue
  [54.38, -39.72, 32.27], // green
  [42.43, 51.05, 28.62], // red
  [81.80, 2.67, 80.41], // yellow
  [50.63, 51.28, -14.12], // magenta
  [49.57, -29.71, -28.32], // cyan
  [95.19, -1.03, 2.93], // white 9.5
  [81.29, -0.57, 0.44], // neutral 8
  [66.89, -0.75, -0.06], // neutral 6.5
  [50.76, -0.13, 0.14], // neutral 5
  [35.63, -0.46, -0.48], // neutral 3.5
  [20.64, 0.07, -0.46], // black 2
];
