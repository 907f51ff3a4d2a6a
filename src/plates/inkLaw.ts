import { BAND_COUNT, BAND_FIRST_NM, BAND_STEP_NM } from "../../calibration/colourants.ts";
import type { Triple } from "../numeric/triple.ts";
import { solveCholesky } from "../numeric/cholesky.ts";
import { fitSmooth } from "../numeric/fitSmooth.ts";
import { SPECTRAL_BAND_WEIGHTS } from "../print/plateBands.ts";

/**
 * The law of one ink on one paper, over 31 wavelengths.
 *
 * An opaque layer whose absorption over scattering is q reflects R = 1 + q - sqrt(q^2 + 2q) (Kubelka and Munk). Ink adds its own
 * absorption to that of the paper. Three bands give three figures an ink: its absorption of long, middle and short light, in blocks
 * with soft edges at 585 and 495 nm. The paper absorbs q0 = a + b exp(-0.0125 (nm - 450)).
 */
export interface InkLaw {
  readonly a: number;
  readonly b: number;
  /** Absorption of the paper at the 31 wavelengths. */
  readonly q0: Float64Array;
  /** The bands of the bare paper by this law. */
  readonly paper: Triple;
}

/** Absorption of one ink in long, middle and short light. */
export type Absorptions = Triple;

const EDGE_LONG_NM = 585;
const EDGE_SHORT_NM = 495;
const EDGE_WIDTH_NM = 8;
const PAPER_REFERENCE_NM = 450;
const PAPER_SLOPE_PER_NM = 0.0125;

const LOWEST_LN_S = -7;
const HIGHEST_LN_S = 3.2;
const LOWEST_T = 0.01;

const nanometres = (i: number): number => BAND_FIRST_NM + i * BAND_STEP_NM;
const above = (edge: number, nm: number): number => 1 / (1 + Math.exp((edge - nm) / EDGE_WIDTH_NM));

/** Three rows of 31: long, middle, short. They sum to 1 at every wavelength. */
const BLOCKS: Float64Array = (() => {
  const blocks = new Float64Array(3 * BAND_COUNT);
  for (let i = 0; i < BAND_COUNT; i++) {
    const long = above(EDGE_LONG_NM, nanometres(i));
    const notShort = above(EDGE_SHORT_NM, nanometres(i));
    blocks[i] = long;
    blocks[BAND_COUNT + i] = notShort * (1 - long);
    blocks[2 * BAND_COUNT + i] = 1 - notShort;
  }
  return blocks;
})();

/** The fall of the paper's absorption over 31 wavelengths: 1 at 450 nm. */
export const PAPER_FALL: Float64Array = Float64Array.from({ length: BAND_COUNT }, (_, i) =>
  Math.exp(-PAPER_SLOPE_PER_NM * (nanometres(i) - PAPER_REFERENCE_NM)),
);

/** Reflectance of the bands of a layer that adds the absorptions S to those of `q0`; all S >= 0. */
export function bandsOfLayer(q0: Float64Array, S: ArrayLike<number>): [number, number, number] {
  const [S1, S2, S3] = [S[0], S[1], S[2]];
  let [r, g, b] = [0, 0, 0];
  for (let i = 0; i < BAND_COUNT; i++) {
    const q =
      q0[i] + S1 * BLOCKS[i] + S2 * BLOCKS[BAND_COUNT + i] + S3 * BLOCKS[2 * BAND_COUNT + i];
    const R = 1 + q - Math.sqrt(q * q + 2 * q);
    r += SPECTRAL_BAND_WEIGHTS[i] * R;
    g += SPECTRAL_BAND_WEIGHTS[BAND_COUNT + i] * R;
    b += SPECTRAL_BAND_WEIGHTS[2 * BAND_COUNT + i] * R;
  }
  return [r, g, b];
}

const paperAbsorption = (a: number, b: number): Float64Array =>
  PAPER_FALL.map((fall) => a + b * fall);

/**
 * The law on a paper known by its bands.
 * @param paper Reflectance of the bands r, g, b, each above 0.
 * @returns a, b > 0 by least squares on ln of the three bands: two figures cannot meet three, so `paper` of the result differs a little.
 * @throws {RangeError} A band is not finite and positive.
 */
export function inkLawOnPaper(paper: Triple): InkLaw {
  if (!paper.every((value) => value > 0 && Number.isFinite(value)))
    throw new RangeError(`Expected positive bands of the paper, received ${paper.join(" ")}.`);
  const target = paper.map(Math.log);
  const none: Triple = [0, 0, 0];
  const { parameters } = fitSmooth(
    (at, out) => {
      const bands = bandsOfLayer(paperAbsorption(Math.exp(at[0]), Math.exp(at[1])), none);
      for (let c = 0; c < 3; c++) out[c] = Math.log(bands[c]) - target[c];
    },
    3,
    [Math.log(0.03), Math.log(0.1)],
  );
  const [a, b] = [Math.exp(parameters[0]), Math.exp(parameters[1])];
  const q0 = paperAbsorption(a, b);
  return { a, b, q0, paper: bandsOfLayer(q0, none) };
}

/** ln T of a layer of ink: ln of its bands over those of the bare paper. */
export function logTransmission(law: InkLaw, S: ArrayLike<number>): [number, number, number] {
  const [r, g, b] = bandsOfLayer(law.q0, S);
  return [Math.log(r / law.paper[0]), Math.log(g / law.paper[1]), Math.log(b / law.paper[2])];
}

const STEPS = 60;
/** Step of ln S for derivatives. */
const STEP_LN_S = 1e-5;
/** Keeps an absorption that the solid says nothing about (a block at its floor) from running off. */
const DAMPING = 5e-4;
const LONGEST_STEP = 1;

/**
 * The absorptions of an ink known by the T of its solid: damped Newton in ln S on ln T.
 * @param solid T of the bands r, g, b, clipped to 0.01..1.
 * @returns Absorptions within exp(-7)..exp(3.2); a solid outside what the law can give is met as nearly as Newton steps within those
 * bounds get.
 */
export function absorptionsOfSolid(law: InkLaw, solid: Triple): Absorptions {
  const target = solid.map((T) => Math.log(Math.min(1, Math.max(LOWEST_T, T))));
  const clip = (s: number): number => Math.min(HIGHEST_LN_S, Math.max(LOWEST_LN_S, s));
  const lnS = [0, 0, 0];
  const J = new Float64Array(9);
  const at = (): Triple => [Math.exp(lnS[0]), Math.exp(lnS[1]), Math.exp(lnS[2])];
  for (let step = 0; step < STEPS; step++) {
    const here = logTransmission(law, at());
    for (let k = 0; k < 3; k++) {
      const kept = lnS[k];
      lnS[k] = kept + STEP_LN_S;
      const moved = logTransmission(law, at());
      lnS[k] = kept;
      for (let c = 0; c < 3; c++) J[3 * c + k] = (moved[c] - here[c]) / STEP_LN_S;
    }
    const normal = new Float64Array(9);
    const delta = new Float64Array(3);
    for (let k = 0; k < 3; k++) {
      for (let l = 0; l < 3; l++)
        for (let c = 0; c < 3; c++) normal[3 * k + l] += J[3 * c + k] * J[3 * c + l];
      normal[4 * k] += DAMPING;
      for (let c = 0; c < 3; c++) delta[k] += J[3 * c + k] * (target[c] - here[c]);
    }
    if (!solveCholesky(normal, delta)) break;
    for (let k = 0; k < 3; k++)
      lnS[k] = clip(lnS[k] + Math.min(LONGEST_STEP, Math.max(-LONGEST_STEP, delta[k])));
  }
  return at();
}
