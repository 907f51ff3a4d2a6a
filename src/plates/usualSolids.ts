import { DARKNESS_RANGE, type PlateSolid, USUAL_DARKNESS } from "../../calibration/plateSolids.ts";
import type { Triple } from "../numeric/triple.ts";
import type { Darkness } from "./darkness.ts";

/** T of the usual solid of an ink on a sheet of this darkness; where the darkness is not told, on a usual sheet. */
export function usualSolid(ink: PlateSolid, { value, told }: Darkness): Triple {
  const [lowest, highest] = DARKNESS_RANGE;
  const t = told ? Math.min(highest, Math.max(lowest, value - USUAL_DARKNESS)) : 0;
  const { atUsual, deeper } = ink;
  return [
    atUsual[0] * Math.exp(-deeper[0] * t),
    atUsual[1] * Math.exp(-deeper[1] * t),
    atUsual[2] * Math.exp(-deeper[2] * t),
  ];
}
