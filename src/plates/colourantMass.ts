import type { Triple } from "../numeric/triple.ts";

/** Colourant as decadic density times area: least and most. */
export type MassRange = readonly [low: number, high: number];

/**
 * Colourant of one plate on the sheet and what it lost, as decadic density of its solid (strongest band) times the area it prints, mm2:
 * what the baths took is the same quantity, absorbance per cm times volume.
 * @param solid T of the solid, bands r, g, b.
 * @param printedMm2 Area printed, least and most.
 */
export function colourantMass(options: {
  readonly solid: Triple;
  readonly printedMm2: MassRange;
  readonly lost: number;
  readonly low: number;
  readonly high: number;
}): {
  readonly density: number;
  readonly printed: MassRange;
  readonly lost: MassRange;
  readonly lostBounds: MassRange;
} {
  const { solid, printedMm2, lost, low, high } = options;
  const density = Math.max(...solid.map((T) => -Math.log10(T)));
  const printed: MassRange = [density * printedMm2[0], density * printedMm2[1]];
  return {
    density,
    printed,
    lost: [lost * printed[0], lost * printed[1]],
    lostBounds: [low * printed[0], high * printed[1]],
  };
}
