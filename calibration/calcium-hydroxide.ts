/** Molar mass of Ca(OH)2, g/mol. */
export const CALCIUM_HYDROXIDE_G_PER_MOL = 74.093;
/** Molar mass of calcium, g/mol (IUPAC standard atomic weight). */
export const CALCIUM_G_PER_MOL = 40.078;
/** Molar mass of CaCO3, g/mol. */
export const CALCIUM_CARBONATE_G_PER_MOL = 100.087;

/** One row each 10 C from 0 to 100 C. */
export const SOLUBILITY_STEP_C = 10;

/** Ca(OH)2 in g per 100 g of water: a common handbook table, from memory. Lies 5 to 10 % above careful work. */
export const SOLUBILITY_TABLE_A: readonly number[] = [
  0.189, 0.182, 0.173, 0.16, 0.141, 0.128, 0.121, 0.106, 0.094, 0.086, 0.077,
];

/**
 * Ca(OH)2 in g per 100 g of water: second handbook series. 0 to 70 C seen in a published table (its 50 C reads 0.138 there, a
 * slip: neighbours ask for 0.128), 80 to 100 C from memory.
 */
export const SOLUBILITY_TABLE_B: readonly number[] = [
  0.185, 0.176, 0.165, 0.153, 0.141, 0.128, 0.116, 0.106, 0.094, 0.085, 0.077,
];

/** Density of water, kg/L, same rows. */
export const WATER_DENSITY_KG_PER_L: readonly number[] = [
  0.9998, 0.9997, 0.9982, 0.9957, 0.9922, 0.988, 0.9832, 0.9778, 0.9718, 0.9653, 0.9584,
];

/** Saturated solution at 25 C, mol/L: Bates, Bower & Smith, J. Res. NBS 56, 305 (1956); pH 12.45, dilution value -0.28. */
export const SATURATED_25C_MOL_PER_L = 0.0203;

/** How far published solubilities lie apart, as a share: shown with every figure that rests on one. */
export const SOLUBILITY_TOLERANCE = 0.08;

/** pKw of water: CRC handbook values, from memory. */
export const WATER_PKW: readonly (readonly [temperatureC: number, pKw: number])[] = [
  [0, 14.944],
  [10, 14.535],
  [20, 14.167],
  [25, 13.995],
  [30, 13.833],
  [40, 13.535],
  [50, 13.262],
  [60, 13.017],
];

/** Constant A of the Davies equation (log10, mol/L), from the dielectric constant of water. */
export const DAVIES_A: readonly (readonly [temperatureC: number, A: number])[] = [
  [0, 0.4917],
  [25, 0.5107],
  [50, 0.5341],
  [100, 0.5958],
];

/** Association constant of the ion pair CaOH+, L/mol (log K 1.3), from memory; taken as the same at every temperature. */
export const ION_PAIR_L_PER_MOL = 20;

/** ISO 9706: least alkaline reserve of permanent paper, mol of acid neutralised per kg (= 2 % CaCO3). */
export const ISO_9706_RESERVE_MOL_PER_KG = 0.4;
