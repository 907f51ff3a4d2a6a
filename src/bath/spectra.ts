import {
  BAND_COUNT,
  BAND_FIRST_NM,
  BAND_STEP_NM,
  type Bell,
  type Colourant,
  DYES,
  PARTICLES,
  SOFT_BANDS,
  SOIL_REFERENCE_NM,
} from "../../calibration/colourants.ts";

function bells(nm: number, curves: readonly Bell[]): number {
  let sum = 0;
  for (const { centreNm, leftNm, rightNm, height } of curves) {
    const z = (nm - centreNm) / (nm < centreNm ? leftNm : rightNm);
    sum += height * Math.exp(-0.5 * z * z);
  }
  return sum;
}

const overBands = (value: (nm: number) => number): Float64Array =>
  Float64Array.from({ length: BAND_COUNT }, (_, i) => value(BAND_FIRST_NM + i * BAND_STEP_NM));

/** Weights of the three SOFT bands r, g, b over the 31 wavelengths, each row summing to 1. */
export const BAND_WEIGHTS: readonly [Float64Array, Float64Array, Float64Array] = (() => {
  const [r, g, b] = SOFT_BANDS.map((curves) => {
    const weights = overBands((nm) => bells(nm, curves));
    const sum = weights.reduce((a, x) => a + x, 0);
    return weights.map((x) => x / sum);
  });
  return [r, g, b];
})();

/**
 * Absorptivity of a colourant over the 31 bands, 400 to 700 nm.
 * @param shiftNm Moves a dye's peak; particles have none. Default 0.
 * @returns Peak 1 for a dye (its true peak, between bands), 1 at 550 nm for carbon and silt.
 */
export function colourantSpectrum(colourant: Colourant, shiftNm = 0): Float64Array {
  if (colourant === "carbon" || colourant === "silt") {
    const { exponent } = PARTICLES[colourant];
    return overBands((nm) => (550 / nm) ** exponent);
  }
  const dye = DYES[colourant];
  const peak = bells(dye.peakNm, dye.bells);
  return overBands((nm) => bells(nm - shiftNm, dye.bells) / peak);
}

/** Absorptivity of brown soil over the 31 bands: 1 at 446 nm, falling exponentially with wavelength. */
export function soilSpectrum(slopePerNm: number): Float64Array {
  return overBands((nm) => Math.exp(-slopePerNm * (nm - SOIL_REFERENCE_NM)));
}
