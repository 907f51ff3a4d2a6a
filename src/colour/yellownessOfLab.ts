import { labToXyz } from "./lab.ts";
import type { Triple } from "../numeric/triple.ts";
import { yellownessE313 } from "./yellowness.ts";

/** D65 white of ASTM E308, 2 degree, for which the index of the standard is 0. */
const WHITE_D65_E308: Triple = [0.95047, 1, 1.08883];

/**
 * Yellowness index (ASTM E313, D65/2 degree) of a paper known by its CIELAB colour.
 * The standard has no constants for D50, so the same L*, a*, b* are taken under D65: an estimate, good for before against
 * after, not for comparison with an instrument.
 */
export function yellownessOfLab(lab: Triple): number {
  return yellownessE313(labToXyz(lab, WHITE_D65_E308), "D65/2");
}
