import { encodeSrgb } from "../../colour/srgb.ts";
import type { GreySample } from "./greysOfCard.ts";
import { levenbergMarquardt } from "../../numeric/levenbergMarquardt.ts";
import { lightOf } from "./lightOf.ts";
import type { Curve, Tone } from "./tone.ts";

/** The four lightest greys must agree with plain sRGB within this share, else a curve is fitted. */
const AGREEMENT = 0.05;
const LIGHTEST = 4;

/** Fewer greys can't hold six numbers apart, whatever the priors. */
const FEWEST_GREYS = 4;

/** Standard deviations of the weak priors: curves of consumer cameras seldom go further. */
const PRIOR_AMPLITUDE = 0.05;
const PRIOR_LN_GAMMA = 0.1;
const PRIOR_OFFSET = 0.003;

/** Uncertainty of a grey: a share of it (print, light across the card) and a constant (flare, rounding). */
const GREY_SHARE = 0.012;
const GREY_CONSTANT = 0.0015;

/** Beyond this the S-curve is no longer monotone (1 / 2 pi). */
const LARGEST_AMPLITUDE = 0.15;

const PLAIN_SRGB: Tone = {
  kind: "assumed",
  amplitude: 0,
  gamma: 1,
  offset: 0,
  worstGrey: NaN,
};

/**
 * The tone curve of a photo from the greys of a card in it, with one free gain a channel (exposure, white balance).
 * @param greys Lightest first; fewer than four give plain sRGB, assumed.
 * @see The rule: undo sRGB; stop if the four lightest greys then agree within 5 %; otherwise fit S amplitude, gamma and offset
 * with weak priors. Interpolating between greys was tried and is worse: one patch wrong by 2 % tilts the local slope.
 */
export function fitTone(greys: readonly GreySample[]): Tone {
  if (greys.length < FEWEST_GREYS) return PLAIN_SRGB;
  const plain = { amplitude: 0, gamma: 1, offset: 0 };
  if (worstDeviation(greys.slice(0, LIGHTEST), plain) <= AGREEMENT)
    return { kind: "srgb", ...plain, worstGrey: worstDeviation(greys, plain) };
  const fitted = fittedCurve(greys);
  return { kind: "fitted", ...fitted, worstGrey: worstDeviation(greys, fitted) };
}

/** The greys hold decoded values; the curve starts from codes. */
function logLight(grey: GreySample, channel: number, curve: Curve): number {
  return Math.log(Math.max(1e-6, lightOf(encodeSrgb(grey.linear[channel]), curve)));
}

function worstDeviation(greys: readonly GreySample[], curve: Curve): number {
  let worst = 0;
  for (let c = 0; c < 3; c++) {
    const ratios = greys.map((grey) => logLight(grey, c, curve) - Math.log(grey.reference[c]));
    const gain = ratios.reduce((sum, ratio) => sum + ratio, 0) / ratios.length;
    for (const ratio of ratios) worst = Math.max(worst, Math.abs(Math.expm1(ratio - gain)));
  }
  return worst;
}

function fittedCurve(greys: readonly GreySample[]): Curve {
  const count = 3 * greys.length + 3;
  const curveOf = (at: ArrayLike<number>): Curve => ({
    amplitude: Math.min(LARGEST_AMPLITUDE, Math.max(-LARGEST_AMPLITUDE, at[0])),
    gamma: Math.exp(at[1]),
    offset: at[2],
  });
  const residualsAt = (at: ArrayLike<number>, out: Float64Array): void => {
    const curve = curveOf(at);
    greys.forEach((grey, i) => {
      for (let c = 0; c < 3; c++) {
        const sigma = Math.hypot(GREY_SHARE, GREY_CONSTANT / grey.reference[c]);
        out[3 * i + c] =
          (logLight(grey, c, curve) - at[3 + c] - Math.log(grey.reference[c])) / sigma;
      }
    });
    out[count - 3] = at[0] / PRIOR_AMPLITUDE;
    out[count - 2] = at[1] / PRIOR_LN_GAMMA;
    out[count - 1] = at[2] / PRIOR_OFFSET;
  };
  const start = [0, 0, 0, 0, 1, 2].map((c, i) =>
    i < 3 ? 0 : logLight(greys[0], c, curveOf([0, 0, 0])) - Math.log(greys[0].reference[c]),
  );
  const { parameters } = levenbergMarquardt(
    { parameters: 6, residuals: count, evaluate: withNumericJacobian(residualsAt, 6, count) },
    start,
  );
  return curveOf(parameters);
}

/** Steps for the derivatives: far above rounding, far below the priors. */
const STEP = 1e-5;

function withNumericJacobian(
  residualsAt: (at: ArrayLike<number>, out: Float64Array) => void,
  n: number,
  m: number,
): (at: Float64Array, residuals: Float64Array, jacobian: Float64Array | null) => number {
  const moved = new Float64Array(m);
  return (at, residuals, jacobian) => {
    residualsAt(at, residuals);
    for (let j = 0; jacobian !== null && j < n; j++) {
      const trial = Float64Array.from(at);
      trial[j] += STEP;
      residualsAt(trial, moved);
      for (let i = 0; i < m; i++) jacobian[i * n + j] = (moved[i] - residuals[i]) / STEP;
    }
    return residuals.reduce((sum, residual) => sum + residual * residual, 0);
  };
}
