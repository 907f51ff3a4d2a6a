import { BAND_COUNT, BAND_FIRST_NM, BAND_STEP_NM } from "../../calibration/colourants.ts";
import type { Triple } from "../numeric/triple.ts";
import { fitSmooth } from "../numeric/fitSmooth.ts";
import { sheetLab } from "./twoLayerSheet.ts";

/** Slope of the brown of old paper, per nm, as of its soluble part. */
const BROWN_SLOPE = 0.014;
const BROWN_REFERENCE_NM = 450;

/**
 * Absorption spectrum of the bare sheet from its colour: a grey part and a brown part that falls exponentially with wavelength, the two
 * numbers fitted to Lab.
 * @param paperLab CIELAB D50 of unprinted paper before washing.
 * @returns K of the whole sheet over 31 bands, >= 0. Aged papers are met within about 1 in Lab; a paper bluer than the model can be
 * (optical whitener) is met in lightness only.
 */
export function fitPaper(paperLab: Triple): Float64Array {
  const paperK = (grey: number, brown: number): Float64Array =>
    Float64Array.from({ length: BAND_COUNT }, (_, i) => {
      const nm = BAND_FIRST_NM + i * BAND_STEP_NM;
      return grey * grey + brown * brown * Math.exp(-BROWN_SLOPE * (nm - BROWN_REFERENCE_NM));
    });
  const residuals = (at: Float64Array, out: Float64Array): void => {
    const lab = sheetLab(paperK(at[0], at[1]), []);
    for (let c = 0; c < 3; c++) out[c] = lab[c] - paperLab[c];
  };
  // Squares keep both parts from going negative; the start is an ordinary aged newsprint.
  const { parameters } = fitSmooth(residuals, 3, [0.4, 1]);
  return paperK(parameters[0], parameters[1]);
}
