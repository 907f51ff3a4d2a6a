import { BAND_COUNT } from "../../calibration/colourants.ts";
import type { Triple } from "../numeric/triple.ts";
import { BAND_WEIGHTS } from "./spectra.ts";

/** Response of the bands r, g, b to a very weak solution, per unit of amount. */
export function weakResponse(
  spectrum: ArrayLike<number>,
  bands: readonly Float64Array[] = BAND_WEIGHTS,
): Triple {
  const [wr, wg, wb] = bands;
  let [r, g, b] = [0, 0, 0];
  for (let i = 0; i < BAND_COUNT; i++) {
    const e = spectrum[i];
    r += wr[i] * e;
    g += wg[i] * e;
    b += wb[i] * e;
  }
  return [r, g, b];
}

/**
 * Absorbance per cm that the three broad bands show for a mixture: -log10(sum of band weight x 10^(-sum x_j e_j l)) / l. Below the weak limit
 * wherever a spectrum varies inside a band, so columns do not add at high optical density.
 * @param amounts x_j, peak absorbance per cm.
 * @param spectra e_j over the 31 bands.
 * @param pathCm l, the light's whole way through the liquid, > 0.
 * @param jacobian Receives dA_c/dx_j, row-major 3 x n, if given.
 * @param bands Weights of r, g, b over the 31 bands, each summing to 1. Default the mean camera's.
 */
export function bandAbsorbance(
  amounts: ArrayLike<number>,
  spectra: readonly Float64Array[],
  pathCm: number,
  jacobian?: Float64Array,
  bands: readonly Float64Array[] = BAND_WEIGHTS,
): Triple {
  const n = spectra.length;
  const [wr, wg, wb] = bands;
  const perDecade = Math.LN10 * pathCm;
  let [r, g, b] = [0, 0, 0];
  jacobian?.fill(0);
  for (let i = 0; i < BAND_COUNT; i++) {
    let density = 0;
    for (let j = 0; j < n; j++) density += amounts[j] * spectra[j][i];
    const transmitted = Math.exp(-perDecade * density);
    const [pr, pg, pb] = [wr[i] * transmitted, wg[i] * transmitted, wb[i] * transmitted];
    r += pr;
    g += pg;
    b += pb;
    if (jacobian === undefined) continue;
    for (let j = 0; j < n; j++) {
      const e = spectra[j][i];
      jacobian[j] += pr * e;
      jacobian[n + j] += pg * e;
      jacobian[2 * n + j] += pb * e;
    }
  }
  if (jacobian !== undefined)
    for (let j = 0; j < n; j++) {
      jacobian[j] /= r;
      jacobian[n + j] /= g;
      jacobian[2 * n + j] /= b;
    }
  return [-Math.log10(r) / pathCm, -Math.log10(g) / pathCm, -Math.log10(b) / pathCm];
}
