import { BAND_COUNT, BAND_FIRST_NM, BAND_STEP_NM, type Dye } from "../../calibration/colourants.ts";
import { colourantSpectrum } from "../../src/print/spectra.ts";
import { ciede2000 as distance } from "../../src/colour/ciede2000.ts";
import { layerReflectance } from "../../src/print/twoLayerSheet.ts";
import { xyzD50ToLab } from "../../src/colour/lab.ts";
import { reflectanceToXyzD50 } from "../../src/colour/spectrum.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import type { Random } from "../../src/numeric/random.ts";

/** A printed area as nature might have it: unlike the tool's model in profile, scattering, paper, dye and absorptivity. */
export interface DrawnPrint {
  readonly dyes: readonly Dye[];
  readonly paperLab: Triple;
  readonly inkLab: Triple;
  /** dE00 seen on the dry sheet after a loss of transmission density as the bath shows it (solution absorptivity). */
  readonly fade: (lostDensity: number) => number;
  readonly labAfter: (lostDensity: number) => Triple;
}

const LAYERS = 12;
const KINDS: readonly (readonly Dye[])[] = [
  ["red"],
  ["pink"],
  ["blue"],
  ["violet"],
  ["yellow"],
  ["red", "yellow"],
  ["blue", "yellow"],
];

/**
 * Ink that thins out exponentially with depth (mean 6 to 35 % of the sheet) over twelve layers; scattering that falls with wavelength
 * and from sheet to sheet; paper from pale to deep brown; peak shifted by up to 6 nm; absorptivity in print off by 30 % (log-sd).
 * @param kind Index into seven kinds of ink; default drawn.
 * @param densities Range of the transmission density, log-uniform; default from a tint to a heavy solid.
 */
export function drawPrint(
  random: Random,
  kind = random.below(KINDS.length),
  densities: readonly [number, number] = [0.12, 1.2],
): DrawnPrint {
  const dyes = KINDS[kind];
  const scattering = 2.75 * Math.exp(0.12 * random.normal());
  const tilt = random.uniform();
  const grey = 0.3 * random.uniform();
  const brown = 0.3 + 1.2 * random.uniform();
  const slope = 0.011 + 0.006 * random.uniform();
  const depth = 0.06 + 0.29 * random.uniform();
  const q = Math.exp(0.3 * random.normal());
  const total = densities[0] * (densities[1] / densities[0]) ** random.uniform();
  const mix = dyes.length === 1 ? [1] : splitOf(0.3 + 0.4 * random.uniform());
  const spectra = dyes.map((dye) => colourantSpectrum(dye, 12 * random.uniform() - 6));
  const share = Float64Array.from({ length: LAYERS }, (_, i) =>
    Math.exp(-(i + 0.5) / LAYERS / depth),
  );
  const shareSum = share.reduce((a, b) => a + b, 0);

  const labOf = (density: number): Triple => {
    const R = new Float64Array(BAND_COUNT);
    for (let i = 0; i < BAND_COUNT; i++) {
      const nm = BAND_FIRST_NM + i * BAND_STEP_NM;
      const S = (scattering * (550 / nm) ** tilt) / LAYERS;
      const paperK = (grey + brown * Math.exp(-slope * (nm - 450))) / LAYERS;
      const e = spectra.reduce((sum, spectrum, j) => sum + mix[j] * spectrum[i], 0);
      let behind = 0.6;
      for (let layer = LAYERS - 1; layer >= 0; layer--) {
        const inkK = (2 * Math.LN10 * density * e * share[layer]) / shareSum;
        behind = layerReflectance(paperK + inkK, S, behind);
      }
      R[i] = (0.8 * behind) / (1 - 0.2 * behind);
    }
    return xyzD50ToLab(reflectanceToXyzD50(R));
  };
  return {
    dyes,
    paperLab: labOf(0),
    inkLab: labOf(total),
    labAfter: (lost) => labOf(Math.max(0, total - lost / q)),
    fade: (lost) => distance(labOf(total), labOf(Math.max(0, total - lost / q))),
  };
}

const splitOf = (first: number): readonly number[] => [first, 1 - first];
