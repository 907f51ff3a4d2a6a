import type { Colourant } from "../../calibration/colourants.ts";
import { ciede2000 } from "../colour/ciede2000.ts";
import type { Triple } from "../numeric/triple.ts";
import { fitSmooth } from "../numeric/fitSmooth.ts";
import { colourantSpectrum } from "./spectra.ts";
import { type InkLayer, sheetLab } from "./twoLayerSheet.ts";

export interface FittedInk {
  /** The ink's own colourants with their densities in the print. */
  readonly ink: readonly InkLayer[];
  /** What else the colour asks for: another colourant of the print that is not at stake. */
  readonly undertone: readonly InkLayer[];
  /** dE00 between the fitted model and the region. */
  readonly misfitDeltaE00: number;
}

const UNDERTONES: readonly Colourant[] = ["yellow", "red", "pink", "violet", "blue", "carbon"];
/** An undertone has to pay for itself by at least this much dE00. */
const WORTH_DELTA_E00 = 1;
const FIRST_DENSITY = 0.4;
const FIRST_UNDERTONE = 0.05;

/**
 * Densities of an ink's colourants in the print, so that the two-layer model meets the region's colour before washing. A print holds more
 * than its class: one undertone is admitted where it brings the model nearer.
 * @param colourants The ink's own, from `classifyInk`.
 * @param paperK From `fitPaper`.
 * @param depthShare Share of the sheet that holds ink. Default as in `sheetLab`.
 */
export function fitInk(
  inkLab: Triple,
  paperK: Float64Array,
  colourants: readonly Colourant[],
  depthShare?: number,
): FittedInk {
  const own = fitDensities(inkLab, paperK, colourants, depthShare);
  let best: FittedInk = { ink: own.layers, undertone: [], misfitDeltaE00: own.misfit };
  for (const extra of UNDERTONES) {
    if (colourants.includes(extra)) continue;
    const { layers, misfit } = fitDensities(inkLab, paperK, [...colourants, extra], depthShare);
    if (misfit < Math.min(best.misfitDeltaE00, own.misfit - WORTH_DELTA_E00))
      best = {
        ink: layers.slice(0, colourants.length),
        undertone: layers.slice(colourants.length),
        misfitDeltaE00: misfit,
      };
  }
  return best;
}

function fitDensities(
  inkLab: Triple,
  paperK: Float64Array,
  colourants: readonly Colourant[],
  depthShare: number | undefined,
) {
  const spectra = colourants.map((colourant) => colourantSpectrum(colourant));
  // Squared parameters keep densities from going negative.
  const layersAt = (at: Float64Array): InkLayer[] =>
    spectra.map((spectrum, j) => ({ spectrum, density: at[j] * at[j] }));
  const { parameters } = fitSmooth(
    (at, out) => {
      const lab = sheetLab(paperK, layersAt(at), depthShare);
      for (let c = 0; c < 3; c++) out[c] = lab[c] - inkLab[c];
    },
    3,
    colourants.map((_, j) => Math.sqrt(j === 0 ? FIRST_DENSITY : FIRST_UNDERTONE)),
  );
  const layers = layersAt(parameters);
  return { layers, misfit: ciede2000(inkLab, sheetLab(paperK, layers, depthShare)) };
}
