import { BAND_COUNT, BAND_FIRST_NM, BAND_STEP_NM } from "../../calibration/colourants.ts";
import { type InkLayer, sheetReflectance } from "./twoLayerSheet.ts";
import { labToXyzD50, xyzD50ToLab } from "../colour/lab.ts";
import { reflectanceToXyzD50 } from "../colour/spectrum.ts";
import type { Triple } from "../numeric/triple.ts";
import { fitSmooth } from "../numeric/fitSmooth.ts";
import { fitPaperSpectrum } from "./fitPaperSpectrum.ts";

/** Share of the sheet that holds the ink: the middle, by ratio, of the 5 to 40 % that occur. */
const INK_DEPTH_SHARE = 0.15;
/** Share of a solid that letterpress on rough paper leaves bare: 0 to 8 % occur, by judgement. It is all that a black shows of its paper. */
const PINHOLES = 0.03;
/** But no more than this share of what an ink reflects comes from them: a very dark print has fewer. */
const MOST_PINHOLE_LIGHT = 0.5;
/** A layer thinner than this (transmission density at its strongest) is a screen of dots this thick: inks were not printed thinner. */
const SOLID_DENSITY = 0.4;
/**
 * Reflectance (Y) of the lightest paper before that the model takes as it is: newsprint of its scattering ends at 0.77, and washing lightens. A
 * whiter one, coated or filled, is taken as newsprint in more light.
 */
const LIGHTEST_PAPER = 0.65;
/** Keeps the screen of no ink at all finite. */
const LEAST_DENSITY = 1e-9;

/**
 * An ink of unknown colourants absorbs in a short, a middle and a long band, with soft steps at 495 and 585 nm, where the three cones'
 * interests part: three amounts for three of Lab, so that overprints and blacks need no naming.
 */
const STEPS_NM = [495, 585] as const;
const SOFTNESS_NM = 8;

const BANDS: readonly Float64Array[] = [0, 1, 2].map((band) =>
  Float64Array.from({ length: BAND_COUNT }, (_, i) => {
    const nm = BAND_FIRST_NM + i * BAND_STEP_NM;
    const above = (step: number): number => 1 / (1 + Math.exp((step - nm) / SOFTNESS_NM));
    const rise = band === 0 ? 1 : above(STEPS_NM[band - 1]);
    const fall = band === 2 ? 1 : 1 - above(STEPS_NM[band]);
    return rise * fall;
  }),
);

/** Squared amounts; their middle is a solid of ordinary density. */
const START = [0.6, 0.6, 0.6] as const;

/** A bare sheet: its absorption and its reflectance. */
interface BareSheet {
  readonly K: Float64Array;
  readonly reflectance: Float64Array;
}

function bareSheet(lab: Triple): BareSheet {
  const K = fitPaperSpectrum(lab);
  return { K, reflectance: sheetReflectance(K, [], INK_DEPTH_SHARE) };
}

/** An amount of ink: the densities of its three bands, and the share it leaves bare where it is solid. */
interface InkAmount {
  readonly densities: Triple;
  readonly pinholes: number;
}

/** CIELAB D50 of a print: solid from {@link SOLID_DENSITY} on, a screen of that density below. */
function printLab({ densities, pinholes }: InkAmount, { K, reflectance }: BareSheet): Triple {
  const thicken = Math.max(1, SOLID_DENSITY / Math.max(...densities, LEAST_DENSITY));
  const coverage = (1 - pinholes) / thicken;
  const layers = BANDS.map((spectrum, j): InkLayer => ({
    spectrum,
    density: thicken * densities[j],
  }));
  const printed = sheetReflectance(K, layers, INK_DEPTH_SHARE);
  return xyzD50ToLab(
    reflectanceToXyzD50(printed.map((R, i) => coverage * R + (1 - coverage) * reflectance[i])),
  );
}

/** The colour in so many times the light. */
function underLight(lab: Triple, factor: number): Triple {
  if (factor === 1) return lab;
  const [X, Y, Z] = labToXyzD50(lab);
  return xyzD50ToLab([factor * X, factor * Y, factor * Z]);
}

function square(root: ArrayLike<number>): Triple {
  return [root[0] * root[0], root[1] * root[1], root[2] * root[2]];
}

/**
 * The colour an untouched ink would show on the changed paper, by the two-layer model of Kubelka and Munk: the paper's absorption before and
 * after is fitted to its colours, the amount of ink to the ink's colour on the paper before, and that amount is printed on the
 * paper after. What the model changes is added to the measured colour, so that its misfit cancels.
 *
 * Printed ink is translucent, but not clear: a solid hides most of the paper below it, a dark one nearly all. Scaling channel by channel
 * (`expectByScaling`) takes every ink for clear and overstates the paper's part, up to threefold on darks; see
 * `tests/study/paperPart.script.ts` for both against scenes and varied sheets of known truth.
 * @param paperBefore CIELAB D50 of the bare paper before.
 * @param ink CIELAB D50 of the ink before.
 * @param paperAfter CIELAB D50 of the bare paper after.
 * @returns CIELAB D50; NaN where any input is not finite.
 */
export function expectByLayers(
  paperBefore: Triple,
): (ink: Triple) => (paperAfter: Triple) => Triple {
  if (!paperBefore.every(Number.isFinite)) return () => () => [NaN, NaN, NaN];
  const light = Math.max(1, labToXyzD50(paperBefore)[1] / LIGHTEST_PAPER);
  const before = bareSheet(underLight(paperBefore, 1 / light));
  return (measuredInk) => {
    if (!measuredInk.every(Number.isFinite)) return () => [NaN, NaN, NaN];
    const ink = underLight(measuredInk, 1 / light);
    const lightShare = labToXyzD50(measuredInk)[1] / labToXyzD50(paperBefore)[1];
    const pinholes = Math.min(PINHOLES, MOST_PINHOLE_LIGHT * Math.max(0, lightShare));
    const { parameters } = fitSmooth(
      (at, out) => {
        const model = printLab({ densities: square(at), pinholes }, before);
        for (let c = 0; c < 3; c++) out[c] = model[c] - ink[c];
      },
      3,
      START,
    );
    const amount: InkAmount = { densities: square(parameters), pinholes };
    const printed = printLab(amount, before);
    return (paperAfter) => {
      if (!paperAfter.every(Number.isFinite)) return [NaN, NaN, NaN];
      const reprinted = printLab(amount, bareSheet(underLight(paperAfter, 1 / light)));
      const expected: Triple = [
        ink[0] + reprinted[0] - printed[0],
        ink[1] + reprinted[1] - printed[1],
        ink[2] + reprinted[2] - printed[2],
      ];
      return underLight(expected, light);
    };
  };
}
