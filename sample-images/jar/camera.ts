import { Matrix, solve } from "ml-matrix";
import { CHART24_SPECTRA } from "../../calibration/chart24-spectra.ts";
import {
  OBSERVER_AND_DAYLIGHT,
  OBSERVER_FIRST_NM,
  OBSERVER_STEP_NM,
} from "../../calibration/observer-and-daylight.ts";
import { reflectanceToXyzD50 } from "../../src/colour/spectrum.ts";
import { SRGB_TO_XYZ_D50 } from "../../src/colour/srgb.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { invert3, type Matrix3, multiply3Vector } from "../../src/numeric/matrix3.ts";
import { BANDS_NM, bell, type Spectrum, spectrumOf } from "./bands.ts";

/** Relative spectral power of the lamps. */
export const LIGHTS = {
  /** Daylight of 6500 K: S0 alone is close to 6800 K, near enough for a window. */
  daylight: spectrumOf(
    (nm) => OBSERVER_AND_DAYLIGHT[(nm - OBSERVER_FIRST_NM) / OBSERVER_STEP_NM][3] / 100,
  ),
  /** Black body of 2856 K. */
  lamp: spectrumOf((nm) => blackBody(nm, 2856) / blackBody(560, 2856)),
  /** White light-emitting diode of about 4000 K: blue line and phosphor. */
  led: spectrumOf((nm) => 0.75 * bell(nm, 450, 9, 11) + bell(nm, 590, 52, 62)),
} as const satisfies Record<string, Spectrum>;

export type Light = keyof typeof LIGHTS;

/** Sensitivities of three made-up cameras: red, green, blue. */
export const CAMERAS = {
  one: [
    spectrumOf((nm) => bell(nm, 600, 28, 32) + 0.05 * bell(nm, 440, 25, 25)),
    spectrumOf((nm) => bell(nm, 532, 36, 38)),
    spectrumOf((nm) => bell(nm, 458, 24, 30)),
  ],
  two: [
    spectrumOf((nm) => bell(nm, 610, 36, 34) + 0.12 * bell(nm, 530, 30, 30)),
    spectrumOf((nm) => bell(nm, 540, 40, 40) + 0.05 * bell(nm, 620, 25, 25)),
    spectrumOf((nm) => bell(nm, 462, 28, 34)),
  ],
  three: [
    spectrumOf((nm) => bell(nm, 594, 24, 36) + 0.07 * bell(nm, 515, 25, 20)),
    spectrumOf((nm) => bell(nm, 525, 32, 40)),
    spectrumOf((nm) => bell(nm, 450, 22, 32) + 0.06 * bell(nm, 530, 25, 25)),
  ],
} as const satisfies Record<string, readonly [Spectrum, Spectrum, Spectrum]>;

export type Camera = keyof typeof CAMERAS;

function blackBody(nm: number, kelvin: number): number {
  return nm ** -5 / (Math.exp(1.4388e7 / (nm * kelvin)) - 1);
}

/** Takes a reflected or transmitted spectrum (1 = perfect white) to linear sRGB as the camera would write it. */
export interface Eye {
  readonly see: (spectrum: Spectrum) => Triple;
}

const XYZ_TO_SRGB = invert3(SRGB_TO_XYZ_D50);

/**
 * A camera in a light: raw responses balanced on white, then the matrix to linear sRGB that a maker would fit on the 24 patches,
 * with white kept white. Such a matrix has negative entries: that is what makes absorbances in linear sRGB misleading.
 */
export function eyeOf(camera: Camera, light: Light): Eye {
  const power = LIGHTS[light];
  const weights = CAMERAS[camera].map((sensitivity) => {
    const product = sensitivity.map((value, band) => value * power[band]);
    const sum = product.reduce((a, b) => a + b, 0);
    return product.map((value) => value / sum);
  });
  const raw = (spectrum: Spectrum): number[] =>
    weights.map((row) => row.reduce((sum, weight, band) => sum + weight * spectrum[band], 0));
  const inputs: number[][] = [];
  const targets: number[][] = [];
  for (const full of CHART24_SPECTRA) {
    inputs.push(raw(full.slice(2, 2 + BANDS_NM.length)));
    targets.push([...multiply3Vector(XYZ_TO_SRGB, reflectanceToXyzD50(full))]);
  }
  // White counts a hundredfold, so that it stays white to a thousandth.
  for (let i = 0; i < 100; i++) {
    inputs.push([1, 1, 1]);
    targets.push([1, 1, 1]);
  }
  const fitted = solve(new Matrix(inputs), new Matrix(targets)).transpose();
  const m = fitted.to1DArray() as unknown as Matrix3;
  return { see: (spectrum) => multiply3Vector(m, raw(spectrum) as unknown as Triple) };
}
