/**
 * The two-layer Kubelka-Munk model of a printed newsprint sheet. Values are of the simulation whose check table the tests hold
 * the model to; scattering power and backing are typical of newsprint, by judgement.
 */

/** Scattering power S X of the whole sheet. */
export const SHEET_SCATTERING = 2.75;
/** Reflectance of what lies behind the sheet while it is scanned. */
export const BACKING_REFLECTANCE = 0.6;
/** Share of the sheet's thickness, from the top, that holds the ink: 5 to 40 % occur, 20 % is right in the middle. */
export const INK_DEPTH_SHARE = 0.2;
/** Internal reflection at the surface: R' = (1 - k) R / (1 - k R). */
export const SURFACE_REFLECTION = 0.2;
/** Solution over print absorptivity at the peak: dyes in print are broader and shifted (0.7 to 1.3). */
export const SOLUTION_OVER_PRINT = 1;
