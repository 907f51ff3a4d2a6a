import type { Triple } from "../numeric/triple.ts";

/** One bath as the jar photo gives it: what the unmixing works from. */
export interface BathReading {
  /** Absorbance of the bands r, g, b (SOFT), decadic, per cm; scattering taken off. */
  readonly absorbancePerCm: Triple;
  /** Standard deviation of each, camera spread included. */
  readonly absorbanceSigma: Triple;
  /** The light's whole way through the liquid, cm (path times passes). */
  readonly pathCm: number;
}

/** Whether a reading differs from the fresh bath at all: some band above twice its error. */
export function showsColour({ absorbancePerCm, absorbanceSigma }: BathReading): boolean {
  return absorbancePerCm.some((A, c) => A > 2 * absorbanceSigma[c]);
}
