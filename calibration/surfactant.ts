/**
 * Octylphenol ethoxylate, non-ionic, 9 to 10 ethoxy units, standing for the non-ionic surfactants of the trade.
 * Molar mass 625 to 647 g/mol and critical micelle concentration 0.22 to 0.24 mmol/L: published detergent tables (another paper
 * gives 0.59: it depends on method and grade). Density from memory.
 */
export const SURFACTANT_G_PER_ML = 1.065;
/** Critical micelle concentration (cmc), mg/L: low, taken, high. */
export const SURFACTANT_CMC_MG_PER_L = { low: 138, mid: 145, high: 155 } as const;

/** Volume of one neat drop, mL, where the user has not measured it: half a water drop, since the surface tension is half. */
export const DROP_ML = 0.03;
/** Relative uncertainty of a drop nobody measured (droppers differ by tip) and of a drop the user weighed or counted out. */
export const DROP_TOLERANCE_ASSUMED = 0.35;
export const DROP_TOLERANCE_MEASURED = 0.1;
