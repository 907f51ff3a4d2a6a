/**
 * A reduced picture in CIELAB D50: three planes, row-major, each of length width * height, NaN where there is no data.
 * Each cell is the Lab of the mean linear light over the full pixels it covers, at about 100 to 150 cells per inch.
 * A cell (x) and a full pixel (X) of the frame it came from are related by X = (x + 0.5) * step - 0.5.
 */
export interface LabImage {
  readonly width: number;
  readonly height: number;
  readonly L: Float32Array;
  readonly a: Float32Array;
  readonly b: Float32Array;
  /** Side of a cell on the sheet. */
  readonly mmPerCell: number;
  /** Full pixels per cell along x and along y; need not be whole. */
  readonly stepX: number;
  readonly stepY: number;
}
