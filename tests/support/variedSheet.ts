import type { Colourant } from "../../calibration/colourants.ts";
import { BAND_COUNT, BAND_FIRST_NM, BAND_STEP_NM } from "../../calibration/colourants.ts";
import { colourantSpectrum } from "../../src/print/spectra.ts";
import { layerReflectance } from "../../src/print/twoLayerSheet.ts";
import { xyzD50ToLab } from "../../src/colour/lab.ts";
import { reflectanceToXyzD50 } from "../../src/colour/spectrum.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { seededRandom } from "../../src/numeric/random.ts";

/** What is printed: solids, overprints (the second ink solid or a screen), tints. */
export const PRINTS = [
  "red",
  "yellow",
  "blue",
  "black",
  "red+yellow",
  "yellow+blue",
  "red+blue",
  "red tint",
  "yellow tint",
  "blue tint",
  "black tint",
] as const;

/** A print on a paper, washed: CIELAB D50. */
export interface WashedPrint {
  readonly print: (typeof PRINTS)[number];
  readonly paperBefore: Triple;
  readonly paperAfter: Triple;
  readonly before: Triple;
  /** Nothing lost, on the paper after. */
  readonly untouched: Triple;
  /** With the loss that was asked for. */
  readonly after: Triple;
}

const DYES: Readonly<Record<string, readonly Colourant[]>> = {
  red: ["red", "pink"],
  yellow: ["yellow"],
  blue: ["blue", "violet"],
  black: ["carbon"],
};

const overBands = (value: (nm: number) => number): Float64Array =>
  Float64Array.from({ length: BAND_COUNT }, (_, i) => value(BAND_FIRST_NM + i * BAND_STEP_NM));

/** Broad, impure absorptions, as of lakes in print. */
const BROAD: Readonly<Record<string, (nm: number) => number>> = {
  red: (nm) => bell(nm, 525, 62, 38) + 0.3 * bell(nm, 410, 40, 60) + 0.01,
  yellow: (nm) => bell(nm, 425, 40, 48) + 0.01,
  blue: (nm) => bell(nm, 635, 68, 60) + 0.12 * bell(nm, 400, 30, 45) + 0.02,
  black: (nm) => 1 - 0.0006 * (nm - 400),
};

function bell(nm: number, centre: number, below: number, above: number): number {
  return Math.exp(-0.5 * ((nm - centre) / (nm < centre ? below : above)) ** 2);
}

/**
 * Sheets that differ in everything a comparison can't know: depth of the ink (8 to 35 % of the sheet), scattering, backing, pinholes
 * (0 to 8 %), spectra, density and screen of the inks, dot gain in the paper (Yule and Nielsen), yellowing and grime of other slopes, how much of the
 * grime lies on top of the ink (0 to a half), and how much of each the washing takes. Ranges by judgement.
 * @param inkLoss Share of the ink that went.
 */
export function washedPrint(seed: number, inkLoss = 0): WashedPrint {
  const random = seededRandom(seed);
  const between = (low: number, high: number): number => low + (high - low) * random.uniform();
  const depth = Math.exp(between(Math.log(0.08), Math.log(0.35)));
  const scattering = between(2, 4);
  const backing = [0.6, 0.04, 0.85][random.below(3)];
  const pinholes = between(0, 0.08);
  const yellowSlope = between(0.01, 0.016);
  const grimeSlope = between(0.003, 0.008);
  const fibre = between(0.02, 0.15);
  const yellowing = between(0.1, 0.5);
  const grime = between(0.005, 0.04);
  const onTop = between(0, 0.5);
  const washed = { yellowing: 1 - between(0.1, 0.6), grime: 1 - between(0.1, 0.7) };
  const narrow = random.uniform() < 0.5;
  const shiftNm = between(-10, 10);
  const print = PRINTS[random.below(PRINTS.length)];
  const inks = print.replace(" tint", "").split("+");
  const isTint = print.endsWith("tint");
  const coverage = isTint ? between(0.2, 0.8) : 1 - pinholes;
  const dotGain = isTint && random.uniform() < 0.5 ? 1.7 : 1;
  const coverages = inks.map((_, j) =>
    j > 0 && random.uniform() < 0.5 ? between(0.3, 0.7) : coverage,
  );
  const absorptions = inks.map((ink) => {
    const density = ink === "black" ? between(0.7, 1.3) : between(0.3, 0.7);
    const dyes = DYES[ink];
    const e = narrow
      ? colourantSpectrum(dyes[random.below(dyes.length)], shiftNm).map((value) => value + 0.015)
      : overBands((nm) => BROAD[ink](ink === "black" ? nm : nm - shiftNm));
    return e.map((value) => 2 * Math.LN10 * density * value);
  });

  type State = typeof washed;
  const brown = (nm: number): number => Math.exp(-grimeSlope * (nm - 550));
  const sheet = ({ yellowing: y, grime: g }: State, inkK: (band: number) => number): number[] =>
    Array.from({ length: BAND_COUNT }, (_, i) => {
      const nm = BAND_FIRST_NM + i * BAND_STEP_NM;
      const K =
        fibre +
        yellowing * y * Math.exp(-yellowSlope * (nm - 450)) +
        grime * (1 - onTop) * g * brown(nm);
      const below = layerReflectance((1 - depth) * K, (1 - depth) * scattering, backing);
      const R = layerReflectance(depth * K + inkK(i), depth * scattering, below);
      return ((0.8 * R) / (1 - 0.2 * R)) * Math.exp(-2 * grime * onTop * g * brown(nm));
    });
  const labOf = (reflectance: readonly number[]): Triple =>
    xyzD50ToLab(reflectanceToXyzD50(reflectance));
  const printed = (state: State, left: number): Triple => {
    const sums = new Array<number>(BAND_COUNT).fill(0);
    for (let which = 0; which < 1 << inks.length; which++) {
      const has = (j: number): boolean => ((which >> j) & 1) === 1;
      const share = coverages.reduce((p, c, j) => p * (has(j) ? c : 1 - c), 1);
      sheet(state, (i) =>
        absorptions.reduce((K, ink, j) => K + (has(j) ? left * ink[i] : 0), 0),
      ).forEach((R, i) => {
        sums[i] += share * R ** (1 / dotGain);
      });
    }
    return labOf(sums.map((sum) => sum ** dotGain));
  };
  const unwashed: State = { yellowing: 1, grime: 1 };
  const bare = (state: State): Triple => labOf(sheet(state, () => 0));
  return {
    print,
    paperBefore: bare(unwashed),
    paperAfter: bare(washed),
    before: printed(unwashed, 1),
    untouched: printed(washed, 1),
    after: printed(washed, 1 - inkLoss),
  };
}
