/**
 * A reduced picture in linear light: three planes, row-major, each of length width * height.
 * Values are means over the pixels that each cell covers. NaN marks a cell without data (outside the frame, masked).
 * A cell (x) and a full pixel (X) of the frame it came from are related by X = (x + 0.5) * step - 0.5.
 */
export interface Planes {
  readonly width: number;
  readonly height: number;
  /** Full pixels per cell along x and along y; need not be whole. */
  readonly stepX: number;
  readonly stepY: number;
  readonly channels: readonly [Float32Array, Float32Array, Float32Array];
}
