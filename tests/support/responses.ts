import type { Colourant } from "../../calibration/colourants.ts";
import type { Triple } from "../../src/numeric/triple.ts";

/**
 * How colourants answer in the SOFT bands: mean of twelve pairs of measured camera sensitivities and lights, by another
 * implementation, printed to 0.01. Between cameras a column spreads by 2 to 5 %.
 */
export const RESPONSES: readonly {
  name: Colourant | "soil";
  rgb: Triple;
  strongest: 0 | 1 | 2;
  /** Relative variance of the spectrum inside the strongest band. */
  v: number;
  /** Measured over weak-limit absorbance at weak optical density 0.1, 0.2, 0.5, 1, 2. */
  broad: readonly number[];
}[] = [
  {
    name: "red",
    rgb: [0.12, 0.56, 0.62],
    strongest: 2,
    v: 0.18,
    broad: [0.98, 0.96, 0.89, 0.78, 0.59],
  },
  {
    name: "pink",
    rgb: [0.16, 0.48, 0.18],
    strongest: 1,
    v: 0.63,
    broad: [0.93, 0.86, 0.67, 0.47, 0.28],
  },
  {
    name: "blue",
    rgb: [0.65, 0.27, 0.06],
    strongest: 0,
    v: 0.24,
    broad: [0.97, 0.94, 0.86, 0.72, 0.52],
  },
  {
    name: "violet",
    rgb: [0.57, 0.61, 0.15],
    strongest: 1,
    v: 0.35,
    broad: [0.96, 0.92, 0.79, 0.61, 0.39],
  },
  {
    name: "yellow",
    rgb: [0.03, 0.09, 0.48],
    strongest: 2,
    v: 0.53,
    broad: [0.94, 0.88, 0.72, 0.53, 0.34],
  },
  {
    name: "soil",
    rgb: [0.16, 0.33, 0.74],
    strongest: 2,
    v: 0.21,
    broad: [0.98, 0.95, 0.88, 0.78, 0.61],
  },
  { name: "carbon", rgb: [0.94, 1.01, 1.12], strongest: 2, v: 0, broad: [1, 1, 1, 0.99, 0.99] },
];
