/**
 * A lattice of square cells over a frame, row-major. A cell (x) and a full pixel (X) of the frame are related by
 * X = (x + 0.5) * step - 0.5.
 */
export interface Grid {
  /** Cells along x and along y. */
  readonly width: number;
  readonly height: number;
  /** Side of a cell on the sheet. */
  readonly mmPerCell: number;
  /** Full pixels per cell along x and along y; need not be whole. */
  readonly stepX: number;
  readonly stepY: number;
}
