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

/** Sum of bells over the 31 bands, shifted and broadened. */
function bellsOverBands(curves: readonly Bell[], shiftNm: number, breadth: number): Float64Array {
  const out = new Float64Array(BAND_COUNT);
  for (const { centreNm, leftNm, rightNm, height } of curves) {
    const centre = centreNm + shiftNm;
    const left = 1 / (breadth * leftNm);
    const right = 1 / (breadth * rightNm);
    let nm = BAND_FIRST_NM;
    for (let i = 0; i < out.length; i++) {
      const z = (nm - centre) * (nm < centre ? left : right);
      out[i] += height * Math.exp(-0.5 * z * z);
      nm += BAND_STEP_NM;
    }
  }
  return out;
}

function bellsAt(nm: number, curves: readonly Bell[]): number {
  return curves.reduce((sum, { centreNm, leftNm, rightNm, height }) => {
    const z = (nm - centreNm) / (nm < centreNm ? leftNm : rightNm);
    return sum + height * Math.exp(-0.5 * z * z);
  }, 0);
}

function scaled(values: Float64Array, factor: number): Float64Array {
  for (let i = 0; i < values.length; i++) values[i] *= factor;
  return values;
}

const overBands = (value: (nm: number) => number): Float64Array => {
  const out = new Float64Array(BAND_COUNT);
  for (let i = 0; i < out.length; i++) out[i] = value(BAND_FIRST_NM + i * BAND_STEP_NM);
  return out;
};

/** How one camera's bands differ from the mean camera's, a value a band. */
export interface CameraOffset {
  readonly shiftNm: readonly number[];
  /** Breadth over the mean camera's. */
  readonly breadth: readonly number[];
}

/** Weights of the SOFT bands r, g, b of a camera over the 31 wavelengths, each row summing to 1. */
export function cameraBands({ shiftNm, breadth }: CameraOffset): readonly Float64Array[] {
  return SOFT_BANDS.map((curves, c) => {
    const weights = bellsOverBands(curves, shiftNm[c], breadth[c]);
    let sum = 0;
    for (let i = 0; i < weights.length; i++) sum += weights[i];
    return scaled(weights, 1 / sum);
  });
}

/** The mean camera's. */
export const BAND_WEIGHTS = cameraBands({ shiftNm: [0, 0, 0], breadth: [1, 1, 1] });

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
  return scaled(bellsOverBands(dye.bells, shiftNm, 1), 1 / bellsAt(dye.peakNm, dye.bells));
}

/** Absorptivity of brown soil over the 31 bands: 1 at 446 nm, falling exponentially with wavelength. */
export function soilSpectrum(slopePerNm: number): Float64Array {
  return overBands((nm) => Math.exp(-slopePerNm * (nm - SOIL_REFERENCE_NM)));
}
