import type { Grid } from "../grid/grid.ts";
import type { LabPlanes } from "./differenceMap.ts";

/** A registered pair as the damage finders look at it. All planes lie on a grid over the before scan. */
export interface ChangeView extends Grid {
  /** CIELAB D50, low-passed by 1 mm; NaN where there is no data. */
  readonly before: LabPlanes;
  readonly after: LabPlanes;
}
