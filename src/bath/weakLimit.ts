import { DYE_SHIFT_NM, SOIL_SLOPE_PER_NM } from "../../calibration/colourants.ts";
import { weakResponse } from "../print/bandAbsorbance.ts";
import { fitAmounts } from "./fitAmounts.ts";
import type { Palette } from "./palette.ts";
import type { BathReading } from "./reading.ts";
import { colourantSpectrum, soilSpectrum } from "../print/spectra.ts";

/** Explanations that fit worse than the best by more than this chi-squared don't count. */
const PLAUSIBLE = 9;
/** Below this a predicted absorbance is rounding, and a ratio to it nonsense. */
const NOTHING_PER_CM = 1e-6;

/**
 * The reading as columns that add up would give it: in a broad band a dense solution reads too low (a tenth at optical density 0.5
 * for soil, a third for pink). The correction is that of the explanations that fit; where they differ, the doubt is added.
 */
export function weakLimit(reading: BathReading, palette: Palette): BathReading {
  const soil = soilSpectrum(palette.ownSoil?.slopePerNm ?? SOIL_SLOPE_PER_NM);
  const dyes = [...new Set(palette.inks.flatMap(({ colourants }) => colourants))];
  const mixes = [
    [soil],
    ...dyes.flatMap((dye) =>
      [-DYE_SHIFT_NM, DYE_SHIFT_NM].map((shift) => [soil, colourantSpectrum(dye, shift)]),
    ),
  ];
  const fits = mixes.map((spectra) => {
    const { amounts, chiSquared, predicted } = fitAmounts(reading, spectra);
    const weak = [0, 1, 2].map((c) =>
      spectra.reduce((sum, spectrum, j) => sum + amounts[j] * weakResponse(spectrum)[c], 0),
    );
    return {
      chiSquared,
      factor: weak.map((A, c) => (predicted[c] > NOTHING_PER_CM ? A / predicted[c] : 1)),
    };
  });
  const best = Math.min(...fits.map(({ chiSquared }) => chiSquared));
  const plausible = fits.filter(({ chiSquared }) => chiSquared <= best + PLAUSIBLE);
  const y: [number, number, number] = [0, 0, 0];
  const sigma: [number, number, number] = [0, 0, 0];
  for (let c = 0; c < 3; c++) {
    const factors = plausible.map(({ factor }) => factor[c]);
    const low = Math.min(...factors);
    const high = Math.max(...factors);
    const middle = (low + high) / 2;
    y[c] = reading.absorbancePerCm[c] * middle;
    sigma[c] = Math.hypot(
      reading.absorbanceSigma[c] * middle,
      (reading.absorbancePerCm[c] * (high - low)) / 2 / 2,
    );
  }
  return {
    absorbancePerCm: y,
    absorbanceSigma: sigma,
    pathCm: reading.pathCm,
  };
}
