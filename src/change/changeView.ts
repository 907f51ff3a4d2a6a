import type { LabPlanes } from "./differenceMap.ts";

/** A registered pair as the damage finders look at it. All planes lie on the lattice of the before scan. */
export interface ChangeView {
  /** CIELAB D50, low-passed by 1 mm; NaN where there is no data. */
  readonly before: LabPlanes;
  readonly after: LabPlanes;
  readonly width: number;
  readonly height: number;
  readonly mmPerCell: number;
  /** Full pixels of the before scan per cell. */
  readonly stepX: number;
  readonly stepY: number;
}
