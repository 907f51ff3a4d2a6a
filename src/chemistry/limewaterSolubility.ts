import {
  CALCIUM_HYDROXIDE_G_PER_MOL,
  SATURATED_25C_MOL_PER_L,
  SOLUBILITY_STEP_C,
  SOLUBILITY_TABLE_B,
  WATER_DENSITY_KG_PER_L,
} from "../../calibration/calcium-hydroxide.ts";
import { interpolate } from "../numeric/interpolate.ts";

const byTemperature = (values: readonly number[]) =>
  values.map((value, row) => [row * SOLUBILITY_STEP_C, value] as const);

const DENSITY = byTemperature(WATER_DENSITY_KG_PER_L);
const TABLE_B = byTemperature(SOLUBILITY_TABLE_B);

/**
 * Molarity of a Ca(OH)2 solution of known mass fraction: c = 10 s rho / (1 + s/100) / M.
 * @param gramsPer100gWater s.
 * @param temperatureC 0..100.
 * @returns mol/L.
 */
export function calciumHydroxideMolarity(gramsPer100gWater: number, temperatureC: number): number {
  const rho = interpolate(DENSITY, temperatureC);
  const s = gramsPer100gWater;
  return (10 * s * rho) / (1 + s / 100) / CALCIUM_HYDROXIDE_G_PER_MOL;
}

/** The handbook series B as mol/L, unscaled. */
export function handbookSolubilityMolPerL(temperatureC: number): number {
  return calciumHydroxideMolarity(interpolate(TABLE_B, temperatureC), temperatureC);
}

/**
 * Ca(OH)2 that dissolves in water: the careful value at 25 C, elsewhere the handbook's course scaled to it.
 * @param temperatureC 0..100; it falls with heat.
 * @returns mol/L, to about 8 % (`SOLUBILITY_TOLERANCE`).
 * @see Bates, Bower & Smith, J. Res. NBS 56, 305 (1956).
 */
export function limewaterSolubility(temperatureC: number): number {
  return (
    handbookSolubilityMolPerL(temperatureC) *
    (SATURATED_25C_MOL_PER_L / handbookSolubilityMolPerL(25))
  );
}
