/** The 31 bands of the jar scenes: 400 to 700 nm by 10. */
export const BANDS_NM: readonly number[] = Array.from({ length: 31 }, (_, i) => 400 + 10 * i);

/** One value a band. */
export type Spectrum = readonly number[];

/** A spectrum from a function of the wavelength in nm. */
export function spectrumOf(value: (nm: number) => number): Spectrum {
  return BANDS_NM.map(value);
}

/** Gaussian with another width on each side, peak 1. */
export function bell(nm: number, peak: number, below: number, above: number): number {
  return Math.exp(-0.5 * ((nm - peak) / (nm < peak ? below : above)) ** 2);
}
