import {
  CALCIUM_CARBONATE_G_PER_MOL,
  ISO_9706_RESERVE_MOL_PER_KG,
} from "../../calibration/calcium-hydroxide.ts";

export interface AlkalineReserve {
  /** mol of acid neutralised per kg of dry paper, as ISO 10716 counts. */
  readonly molPerKg: number;
  readonly percentCaCO3: number;
  /** Fraction of the 0.4 mol/kg of ISO 9706: a comparison, that standard is for new unprinted paper. */
  readonly shareOfIso9706: number;
}

/**
 * Alkali left when a wet sheet dries, if all of it turns to carbonate and the sheet's own acid takes none of it.
 * @param molPerL Ca(OH)2 of the last bath.
 * @param pickupMlPerG Liquid a drained sheet holds, mL per g of dry paper.
 */
export function alkalineReserve(molPerL: number, pickupMlPerG: number): AlkalineReserve {
  const caPerKg = molPerL * pickupMlPerG;
  return {
    molPerKg: 2 * caPerKg,
    percentCaCO3: (caPerKg * CALCIUM_CARBONATE_G_PER_MOL) / 10,
    shareOfIso9706: (2 * caPerKg) / ISO_9706_RESERVE_MOL_PER_KG,
  };
}
