import type { Triple } from "../numeric/triple.ts";

interface E313Constants {
  readonly x: number;
  readonly z: number;
}

/** Constants Cx, Cz of ASTM E313, table 1, by illuminant and observer. */
export const E313_CONSTANTS = {
  "C/2": { x: 1.2769, z: 1.0592 },
  "D65/2": { x: 1.2985, z: 1.1335 },
  "C/10": { x: 1.2871, z: 1.0781 },
  "D65/10": { x: 1.3013, z: 1.1498 },
} as const satisfies Record<string, E313Constants>;

/**
 * Yellowness index of ASTM E313, YI = 100 (Cx X - Cz Z) / Y. For near-white paper only, never for inks.
 * @param xyz Under the illuminant and observer of `conditions`; any common scale.
 * @param conditions Default "D65/2".
 * @returns Unitless; about 0 for the perfect white, larger is yellower. NaN where Y is 0.
 * @see ASTM E313-20.
 */
export function yellownessE313(
  xyz: Triple,
  conditions: keyof typeof E313_CONSTANTS = "D65/2",
): number {
  const { x, z } = E313_CONSTANTS[conditions];
  return xyz[1] === 0 ? NaN : (100 * (x * xyz[0] - z * xyz[2])) / xyz[1];
}
