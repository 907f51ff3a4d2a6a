import { BAND_COUNT } from "../../calibration/colourants.ts";
import type { Triple } from "../colour/triple.ts";
import { BAND_WEIGHTS } from "./spectra.ts";

/** Response of the bands r, g, b to a very weak solution, per unit of amount. */
export function weakResponse(spectrum: ArrayLike<number>): Triple {
  const dot = (weights: Float64Array): number => {
    let sum = 0;
    for (let i = 0; i < BAND_COUNT; i++) sum += weights[i] * spectrum[i];
    return sum;
  };
  return [dot(BAND_WEIGHTS[0]), dot(BAND_WEIGHTS[1]), dot(BAND_WEIGHTS[2])];
}

/**
 * Absorbance per cm that the three broad bands show for a mixture: -log10(sum of band weight x 10^(-sum x_j e_j l)) / l. Below the weak limit
 * wherever a spectrum varies inside a band, so columns do not add at high optical density.
 * @param amounts x_j, peak absorbance per cm.
 * @param spectra e_j over the 31 bands.
 * @param pathCm l, the light's whole way through the liquid, > 0.
 * @param jacobian Receives dA_c/dx_j, row-major 3 x n, if given.
 */
export function bandAbsorbance(
  amounts: ArrayLike<number>,
  spectra: readonly Float64Array[],
  pathCm: number,
  jacobian?: Float64Array,
): Triple {
  const n = spectra.length;
  const A: [number, number, number] = [0, 0, 0];
  const light = [0, 0, 0];
  jacobian?.fill(0);
  for (let i = 0; i < BAND_COUNT; i++) {
    let density = 0;
    for (let j = 0; j < n; j++) density += amounts[j] * spectra[j][i];
    const transmitted = Math.exp(-Math.LN10 * density * pathCm);
    for (let c = 0; c < 3; c++) {
      const part = BAND_WEIGHTS[c][i] * transmitted;
      light[c] += part;
      if (jacobian !== undefined)
        for (let j = 0; j < n; j++) jacobian[c * n + j] += part * spectra[j][i];
    }
  }
  for (let c = 0; c < 3; c++) {
    A[c] = -Math.log10(light[c]) / pathCm;
    if (jacobian !== undefined) for (let j = 0; j < n; j++) jacobian[c * n + j] /= light[c];
  }
  return A;
}
