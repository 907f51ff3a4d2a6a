import type { Grid } from "./grid.ts";

/**
 * A reduced picture in CIELAB D50: three planes on a grid, row-major, each of length width * height, NaN where there is no data.
 * Each cell is the Lab of the mean linear light over the full pixels it covers, at about 100 to 150 cells per inch.
 */
export interface LabImage extends Grid {
  readonly L: Float32Array;
  readonly a: Float32Array;
  readonly b: Float32Array;
}
