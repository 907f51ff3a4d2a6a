import type { Triple } from "../numeric/triple.ts";
import { nnls } from "../numeric/nnls.ts";
import { bandAbsorbance, weakResponse } from "../print/bandAbsorbance.ts";
import type { BathReading } from "./reading.ts";
import { BAND_WEIGHTS } from "../print/spectra.ts";

const GAUSS_NEWTON_STEPS = 3;

export interface FittedAmounts {
  /** Peak absorbance per cm of each colourant, >= 0. */
  readonly amounts: Float64Array;
  /** Sum of squared residuals over sigma. */
  readonly chiSquared: number;
  /** Absorbance the fit predicts for r, g, b. */
  readonly predicted: Triple;
}

/**
 * Amounts of given colourants that explain a reading best: non-negative least squares at the weak limit, then Gauss-Newton
 * steps through the 31-band model, which is exact where columns stop adding up.
 * @param spectra Absorptivities over the 31 bands. With more than two the answer may be a corner of many equal ones.
 * @param bands Weights of r, g, b over the 31 bands; default the mean camera's.
 * @param steps Gauss-Newton steps; default 3, where any reading of the useful range has settled.
 */
export function fitAmounts(
  { absorbancePerCm: y, absorbanceSigma: sigma, pathCm }: BathReading,
  spectra: readonly Float64Array[],
  bands: readonly Float64Array[] = BAND_WEIGHTS,
  steps = GAUSS_NEWTON_STEPS,
): FittedAmounts {
  const n = spectra.length;
  const weigh = ([r, g, b]: Triple): Triple => [r / sigma[0], g / sigma[1], b / sigma[2]];
  let amounts = nnls(
    spectra.map((spectrum) => weigh(weakResponse(spectrum, bands))),
    weigh(y),
  );
  const jacobian = new Float64Array(3 * n);
  for (let step = 0; step < steps; step++) {
    // Linear about the present amounts: J x = y - A + J x_now.
    const A = bandAbsorbance(amounts, spectra, pathCm, jacobian, bands);
    const target: [number, number, number] = [y[0] - A[0], y[1] - A[1], y[2] - A[2]];
    for (let c = 0; c < 3; c++)
      for (let j = 0; j < n; j++) target[c] += jacobian[c * n + j] * amounts[j];
    const columns = spectra.map((_, j) =>
      weigh([jacobian[j], jacobian[n + j], jacobian[2 * n + j]]),
    );
    amounts = nnls(columns, weigh(target));
  }
  const predicted = bandAbsorbance(amounts, spectra, pathCm, undefined, bands);
  const chiSquared = predicted.reduce((sum, A, c) => sum + ((y[c] - A) / sigma[c]) ** 2, 0);
  return { amounts, chiSquared, predicted };
}
