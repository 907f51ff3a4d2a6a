import { BLOTTER_TRANSFER, FAST_SPOT_ABSORBANCE } from "../../calibration/priors.ts";
import { SOLUTION_OVER_PRINT } from "../../calibration/sheet-model.ts";

/**
 * Most transmission density that a printed area may lose to a bath in whose liquid its blotter was fast: what the faintest stain that
 * is no longer graded fast would have taken up. It is the same whatever the area.
 */
export const FAST_LOST_DENSITY = FAST_SPOT_ABSORBANCE / BLOTTER_TRANSFER;

/**
 * Most of a fast ink that one bath can hold, peak absorbance per cm: the loss above, from the whole printed area, in this volume.
 * @returns null where area or volume is not known: nothing bounds it then.
 * @example fastBoundPerCm(90, 500) // 0.0099
 */
export function fastBoundPerCm(areaCm2: number | null, volumeMl: number | null): number | null {
  if (areaCm2 === null || volumeMl === null || !(areaCm2 > 0) || !(volumeMl > 0)) return null;
  return (SOLUTION_OVER_PRINT * FAST_LOST_DENSITY * areaCm2) / volumeMl;
}
