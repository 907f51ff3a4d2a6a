import type { Liquid } from "./liquids.ts";
import { DYES } from "./liquids.ts";
import { type Spectrum, spectrumOf } from "./bands.ts";

/**
 * Three baths of 500 mL in which the cover of the samples was washed. Soil falls from bath to bath. Red: the cover lost 12 % of a
 * print of 0.52 density on 42 cm2, in all 2.6 density x cm2, so 0.0052 per cm of 500 mL; blue: 3 % of 0.50 on about 57 cm2, 0.0017.
 */
export const SAMPLE_BATHS: readonly Liquid[] = [
  { soil: 0.06, dyes: { red: 0.0028, blue: 0.0009 }, fnu: 4 },
  { soil: 0.034, dyes: { red: 0.0015, blue: 0.0005 }, fnu: 2.5 },
  { soil: 0.021, dyes: { red: 0.0009, blue: 0.0003 }, fnu: 1.5 },
];

/** What each ink gave to its blotter in five minutes under the warm bath: optical density added to the wet blotter, per band. */
export const SAMPLE_BLOTTERS: Readonly<Record<string, Spectrum>> = {
  red: DYES.red.map((value) => 0.065 * value),
  blue: DYES.blue.map((value) => 0.05 * value),
  yellow: DYES.yellow.map((value) => 0.02 * value),
  black: spectrumOf(() => 0.004),
};
