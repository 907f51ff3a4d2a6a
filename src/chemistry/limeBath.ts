import {
  CALCIUM_G_PER_MOL,
  CALCIUM_HYDROXIDE_G_PER_MOL,
  SATURATED_25C_MOL_PER_L,
  SOLUBILITY_TOLERANCE,
} from "../../calibration/calcium-hydroxide.ts";
import { limePh } from "./limePh.ts";
import { limewaterSolubility } from "./limewaterSolubility.ts";

export interface LimeBath {
  readonly molPerL: number;
  readonly calciumHydroxideGPerL: number;
  readonly calciumMgPerL: number;
  readonly ph: number;
  readonly phTolerance: number;
  /** true: warmer than the stock, the bath holds more lime than dissolves; the rest settles as solid. */
  readonly saturated: boolean;
}

/** pH by which the model and the published buffer tables differ at most. */
const MODEL_PH = 0.03;
/** One degree of thermometer error, at -0.033 pH per degree (NBS). */
const THERMOMETER_PH = 0.033;
/** Dissolved CO2 of water that stood in air, mol/L (Henry's law at 0.04 % and 25 C, from memory); each takes two OH-. */
const AIR_CO2_MOL_PER_L = 1.3e-5;

/**
 * A bath of limewater thinned with water.
 * @param limewaterShare 0..1, share of a stock saturated at 25 C.
 * @param temperatureC Of the bath in use, 0..100.
 * @returns Content and pH with its tolerance: model, stock, thermometer and the carbonic acid of the water, in quadrature.
 * The pH is that of clean lime in pure water; a hard or acid water takes up lime and lands lower.
 */
export function limeBath(limewaterShare: number, temperatureC: number): LimeBath {
  const wanted = limewaterShare * SATURATED_25C_MOL_PER_L;
  const limit = limewaterSolubility(temperatureC);
  const molPerL = Math.min(wanted, limit);
  const dissolvedCarbonate = molPerL > 0 ? (2 * AIR_CO2_MOL_PER_L) / (2 * molPerL) : 1;
  return {
    molPerL,
    calciumHydroxideGPerL: molPerL * CALCIUM_HYDROXIDE_G_PER_MOL,
    calciumMgPerL: molPerL * CALCIUM_G_PER_MOL * 1000,
    ph: limePh(molPerL, temperatureC),
    phTolerance: Math.hypot(
      MODEL_PH,
      Math.log10(1 + SOLUBILITY_TOLERANCE),
      THERMOMETER_PH,
      Math.log10(1 + dissolvedCarbonate),
    ),
    saturated: wanted > limit,
  };
}
