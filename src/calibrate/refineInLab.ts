import { EPSILON, KAPPA } from "../colour/cielab.ts";
import { WHITE_D50 } from "../colour/whites.ts";
import { levenbergMarquardt } from "../numeric/levenbergMarquardt.ts";
import type { Correction, ToneCurve } from "./correction.ts";
import type { FitTargets } from "./fitTargets.ts";

/**
 * Strength of the belief that the exponent is 1, per unit of its logarithm, and that there is no offset, per unit of linear light;
 * both in dE00. The measured recipe had 2 and 60 against errors in plain Lab, which are two to three times as large. The belief about the
 * offset is weaker still: photos with a veil of flare need 0.1 (leave-one-out of the worst of the five shared photos 5.67 to 5.52), and
 * scans, whose patches fix the offset anyway, stay as they are.
 */
const GAMMA_PRIOR = 1;
const OFFSET_PRIOR = 10;

/**
 * Errors well above this many dE00 pull in proportion to their size, not to its square. A scanner stays below it everywhere; a phone
 * renders a few saturated patches in a way no smooth model follows, and those must not bend the rest.
 */
const ROBUST_SCALE = 4;

const MAXIMUM_STEPS = 25;

export interface RefinedParts {
  /** Exponent and offset of each channel are fitted too. The start must hold power curves. */
  readonly powers: boolean;
  /** The constant added to XYZ is fitted too. */
  readonly constant: boolean;
}

/**
 * Improves a correction until the colour errors of the patches are least: Levenberg and Marquardt with the error taken in Lab,
 * weighted by what CIEDE2000 makes of it at each patch. With powers, c' = max(c - o, 0)^exp(gamma), and the prior residuals of gamma
 * and o are added, one of each a channel.
 *
 * On the five shared photos of charts (post-2014 values) the mean leave-one-out error went, from plain Lab errors and a squared cost to
 * this: gam+3x3 4.55 to 3.92, curve+3x3 4.95 to 4.36, 3x4 7.19 to 6.24, 3x3 6.74 to 6.93.
 * @param targets What is wanted.
 * @param input Values that the curves, the matrix and the constant work on, three a patch: decoded linear ones, or tone-corrected ones
 * where the curves are fixed already.
 * @param weights How often each patch counts; 0 leaves it out.
 * @param start Where to begin; it must have no plate.
 */
export function refineInLab(
  targets: FitTargets,
  input: Float64Array,
  weights: ArrayLike<number>,
  start: Correction,
  { powers, constant }: RefinedParts,
): Correction {
  const used: number[] = [];
  for (let i = 0; i < targets.count; i++) if (weights[i] > 0) used.push(i);
  const constantAt = 9;
  const powersAt = constantAt + (constant ? 3 : 0);
  const n = powersAt + (powers ? 6 : 0);
  const m = 3 * used.length + (powers ? 6 : 0);
  const { compressed, metric } = targets;

  // Of the patch in hand: tone-corrected value and its derivatives, compressed XYZ and its slope, error.
  const u = new Float64Array(3);
  const uGamma = new Float64Array(3);
  const uOffset = new Float64Array(3);
  const slope = new Float64Array(3);
  const f = new Float64Array(3);

  const evaluate = (
    at: Float64Array,
    residuals: Float64Array,
    jacobian: Float64Array | null,
  ): number => {
    jacobian?.fill(0);
    let cost = 0;
    for (let k = 0; k < used.length; k++) {
      const patch = used[k];
      for (let c = 0; c < 3; c++) {
        u[c] = input[3 * patch + c];
        if (!powers) continue;
        const g = Math.exp(at[powersAt + c]);
        const above = u[c] - at[powersAt + 3 + c];
        u[c] = above > 0 ? above ** g : 0;
        uGamma[c] = above > 0 ? u[c] * Math.log(above) * g : 0;
        uOffset[c] = above > 0 ? (-g * u[c]) / above : 0;
      }
      for (let i = 0; i < 3; i++) {
        let value = at[3 * i] * u[0] + at[3 * i + 1] * u[1] + at[3 * i + 2] * u[2];
        if (constant) value += at[constantAt + i];
        const t = value / WHITE_D50[i];
        if (t > EPSILON) {
          f[i] = Math.cbrt(t);
          slope[i] = 1 / (3 * f[i] * f[i] * WHITE_D50[i]);
        } else {
          f[i] = (KAPPA * t + 16) / 116;
          slope[i] = KAPPA / 116 / WHITE_D50[i];
        }
      }
      let squared = 0;
      for (let r = 0; r < 3; r++) {
        let error = 0;
        for (let i = 0; i < 3; i++)
          error += metric[9 * patch + 3 * r + i] * (f[i] - compressed[3 * patch + i]);
        residuals[3 * k + r] = error;
        squared += error * error;
      }
      // Pseudo-Huber cost 2 s^2 (sqrt(1 + e^2/s^2) - 1): its derivative by e^2 scales residuals and derivatives alike.
      const stretch = Math.sqrt(1 + squared / ROBUST_SCALE ** 2);
      cost += (weights[patch] * 2 * squared) / (stretch + 1);
      const scale = Math.sqrt(weights[patch] / stretch);
      for (let r = 0; r < 3; r++) {
        residuals[3 * k + r] *= scale;
        if (jacobian === null) continue;
        const line = (3 * k + r) * n;
        for (let i = 0; i < 3; i++) {
          const d = scale * metric[9 * patch + 3 * r + i] * slope[i];
          if (d === 0) continue;
          for (let c = 0; c < 3; c++) {
            jacobian[line + 3 * i + c] = d * u[c];
            if (!powers) continue;
            jacobian[line + powersAt + c] += d * at[3 * i + c] * uGamma[c];
            jacobian[line + powersAt + 3 + c] += d * at[3 * i + c] * uOffset[c];
          }
          if (constant) jacobian[line + constantAt + i] = d;
        }
      }
    }
    for (let i = 0; powers && i < 6; i++) {
      const strength = i < 3 ? GAMMA_PRIOR : OFFSET_PRIOR;
      const error = strength * at[powersAt + i];
      residuals[m - 6 + i] = error;
      cost += error * error;
      if (jacobian !== null) jacobian[(m - 6 + i) * n + powersAt + i] = strength;
    }
    return cost;
  };

  const first = new Float64Array(n);
  first.set(start.matrix);
  if (constant) first.set(start.offset, constantAt);
  if (powers)
    start.curves.forEach((curve, c) => {
      if (curve.kind !== "power") return;
      first[powersAt + c] = Math.log(curve.exponent);
      first[powersAt + 3 + c] = curve.offset;
    });
  const { parameters: p } = levenbergMarquardt({ parameters: n, residuals: m, evaluate }, first, {
    maximumSteps: MAXIMUM_STEPS,
  });
  const curve = (c: number): ToneCurve =>
    powers
      ? { kind: "power", offset: p[powersAt + 3 + c], exponent: Math.exp(p[powersAt + c]) }
      : start.curves[c];
  return {
    model: start.model,
    curves: [curve(0), curve(1), curve(2)],
    matrix: [p[0], p[1], p[2], p[3], p[4], p[5], p[6], p[7], p[8]],
    offset: constant ? [p[constantAt], p[constantAt + 1], p[constantAt + 2]] : start.offset,
    plate: null,
  };
}
