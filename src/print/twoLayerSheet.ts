import { BAND_COUNT } from "../../calibration/colourants.ts";
import {
  BACKING_REFLECTANCE,
  INK_DEPTH_SHARE,
  SHEET_SCATTERING,
  SURFACE_REFLECTION,
} from "../../calibration/sheet-model.ts";
import { xyzD50ToLab } from "../colour/lab.ts";
import { reflectanceToXyzD50 } from "../colour/spectrum.ts";
import type { Triple } from "../numeric/triple.ts";

/**
 * Reflectance of a scattering layer over a background, after Kubelka and Munk: a = 1 + K/S', b = sqrt(a^2 - 1),
 * R = (1 - R0 (a - b coth(b S'))) / (a - R0 + b coth(b S')).
 * @param K Absorption of the layer in the units of `S`, >= 0.
 * @param S Scattering power S' of the layer, > 0.
 * @param R0 Reflectance of what lies behind it.
 */
export function layerReflectance(K: number, S: number, R0: number): number {
  const a = 1 + K / S;
  const b = Math.sqrt(a * a - 1);
  // b coth(b S) tends to 1/S without absorption.
  const x = b * S;
  const bCoth = x < 1e-6 ? 1 / S : b / Math.tanh(x);
  return (1 - R0 * (a - bCoth)) / (a - R0 + bCoth);
}

export interface InkLayer {
  /** Absorptivity over the 31 bands, peak 1. */
  readonly spectrum: Float64Array;
  /** Transmission density at the peak, >= 0. */
  readonly density: number;
}

/**
 * Reflectance of a printed sheet over 31 bands: ink in the top share of the paper, paper below, a backing, the paper's surface.
 * @param paperK Absorption of the whole bare sheet, one value a band.
 * @param inks Colourants in the top layer; each adds K = 2 ln10 D e.
 * @param depthShare Share of the sheet that holds ink, 0 < share < 1. Default 0.2.
 */
export function sheetReflectance(
  paperK: Float64Array,
  inks: readonly InkLayer[],
  depthShare: number = INK_DEPTH_SHARE,
): Float64Array {
  const top = depthShare * SHEET_SCATTERING;
  const bottom = SHEET_SCATTERING - top;
  const out = new Float64Array(BAND_COUNT);
  for (let i = 0; i < BAND_COUNT; i++) {
    let K = depthShare * paperK[i];
    for (const { spectrum, density } of inks) K += 2 * Math.LN10 * density * spectrum[i];
    const below = layerReflectance((1 - depthShare) * paperK[i], bottom, BACKING_REFLECTANCE);
    const R = layerReflectance(K, top, below);
    out[i] = ((1 - SURFACE_REFLECTION) * R) / (1 - SURFACE_REFLECTION * R);
  }
  return out;
}

/** CIELAB D50 of that sheet. */
export function sheetLab(
  paperK: Float64Array,
  inks: readonly InkLayer[],
  depthShare?: number,
): Triple {
  return xyzD50ToLab(reflectanceToXyzD50(sheetReflectance(paperK, inks, depthShare)));
}
