import { BAND_COUNT } from "../../calibration/colourants.ts";
import { sheetLab } from "./twoLayerSheet.ts";
import type { Triple } from "../numeric/triple.ts";
import { fitSmooth } from "../numeric/fitSmooth.ts";

/** Starts at an ordinary aged newsprint: ln K at the middle of the spectrum, its slope and its bend. */
const START = [-1.9, -1.5, 0] as const;

/**
 * Absorption spectrum of a bare sheet that meets its colour exactly: the logarithm of K is a parabola over the wavelength, three numbers for
 * three of Lab. (`fitPaper` of the bath has two: it knows what the brown of soil looks like, but misses a* by up to 1, too much for
 * the difference of two papers.)
 * @param lab CIELAB D50 of the bare paper.
 * @returns K of the whole sheet over the 31 bands, > 0.
 */
export function fitPaperSpectrum(lab: Triple): Float64Array {
  const spectrum = ([level, slope, bend]: ArrayLike<number> & Iterable<number>): Float64Array =>
    Float64Array.from({ length: BAND_COUNT }, (_, i) => {
      const x = (2 * i) / (BAND_COUNT - 1) - 1;
      return Math.exp(level + slope * x + bend * x * x);
    });
  const { parameters } = fitSmooth(
    (at, out) => {
      const model = sheetLab(spectrum(at), []);
      for (let c = 0; c < 3; c++) out[c] = model[c] - lab[c];
    },
    3,
    START,
  );
  return spectrum(parameters);
}
