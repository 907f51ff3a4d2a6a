import type { StripeGrid } from "./findStripes.ts";
import type { LightBox } from "../optics/lightBox.ts";
import { phaseShift } from "./phaseShift.ts";

/** Shift of the stripes at top and bottom of a box against edges expected at `edge` + whole `period`s. */
export function endShifts(box: LightBox, grid: StripeGrid, edge: number, period: number): number[] {
  return [box.y, box.y + box.height - 1].map((end) => {
    const expected = edge + period * Math.round((end - edge) / period);
    return phaseShift(grid.edgeY, expected, grid.period);
  });
}
