import {
  DROP_ML,
  DROP_TOLERANCE_ASSUMED,
  DROP_TOLERANCE_MEASURED,
  SURFACTANT_CMC_MG_PER_L,
  SURFACTANT_G_PER_ML,
} from "../../calibration/surfactant.ts";

export interface Dose {
  readonly low: number;
  readonly mid: number;
  readonly high: number;
}

export interface SurfactantDose {
  readonly mgPerL: Dose;
  /** Share of the critical micelle concentration; the spread holds the drop's and the constant's own uncertainty. */
  readonly shareOfCmc: Dose;
}

/**
 * Neat non-ionic surfactant counted in drops.
 * @param drops >= 0.
 * @param bathVolumeMl > 0.
 * @param dropMl Volume of one drop if the user measured it (weigh 20 drops); left out: 0.030 mL to 35 %.
 */
export function surfactantDose(
  drops: number,
  bathVolumeMl: number,
  dropMl?: number,
): SurfactantDose {
  const tolerance = dropMl === undefined ? DROP_TOLERANCE_ASSUMED : DROP_TOLERANCE_MEASURED;
  const grams = drops * (dropMl ?? DROP_ML) * SURFACTANT_G_PER_ML;
  const mid = (grams * 1000) / (bathVolumeMl / 1000);
  const low = mid * (1 - tolerance);
  const high = mid * (1 + tolerance);
  const cmc = SURFACTANT_CMC_MG_PER_L;
  return {
    mgPerL: { low, mid, high },
    shareOfCmc: { low: low / cmc.high, mid: mid / cmc.mid, high: high / cmc.low },
  };
}
