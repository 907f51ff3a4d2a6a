import type { Triple } from "../numeric/triple.ts";
import type { Correction, ModelName, ToneCurve } from "./correction.ts";
import { fitGreyCurves } from "./fitGreyCurves.ts";
import { fitLinearMap } from "./fitLinearMap.ts";
import type { FitTargets } from "./fitTargets.ts";
import { fitThinPlate } from "./fitThinPlate.ts";
import { labOfMean } from "./labOfMean.ts";
import { refineInLab } from "./refineInLab.ts";
import { toneCurveAt } from "./toneCurveAt.ts";

/** Smoothing of the thin plate, in Lab units: 1 to 10 fit the patches closer and predict others no better (23 real photos of charts). */
const PLATE_SMOOTHING = 40;

const IDENTITY: ToneCurve = { kind: "identity" };
const UNIT_POWER: ToneCurve = { kind: "power", offset: 0, exponent: 1 };

/**
 * Fits one correction model: a weighted least-squares start, refined with the error in Lab.
 * @param weights How often each patch counts: 0 leaves it out, whole numbers serve the bootstrap.
 * @param near A fit of the same model to nearly the same patches, from where the search may begin. Default: the weighted start.
 */
export function fitModel(
  model: ModelName,
  targets: FitTargets,
  weights: ArrayLike<number>,
  near?: Correction,
): Correction {
  const { linear } = targets;
  switch (model) {
    case "3x3":
    case "3x4":
    case "gam+3x3": {
      const constant = model === "3x4";
      const powers = model === "gam+3x3";
      const curve = powers ? UNIT_POWER : IDENTITY;
      const start = near ?? {
        model,
        curves: [curve, curve, curve],
        plate: null,
        ...fitLinearMap(targets, linear, weights, constant),
      };
      return refineInLab(targets, linear, weights, start, { powers, constant });
    }
    case "curve+3x3":
    case "curve+3x3+plate": {
      const curves = fitGreyCurves(targets, weights);
      const tone = linear.map((value, i) => toneCurveAt(curves[i % 3], value));
      const map = near ?? fitLinearMap(targets, tone, weights, false);
      const start = { model, curves, plate: null, matrix: map.matrix, offset: map.offset };
      const smooth = refineInLab(targets, tone, weights, start, { powers: false, constant: false });
      return model === "curve+3x3" ? smooth : withPlate(smooth, targets, tone, weights);
    }
  }
}

function withPlate(
  smooth: Correction,
  targets: FitTargets,
  tone: Float64Array,
  weights: ArrayLike<number>,
): Correction {
  const from: Triple[] = [];
  const to: Triple[] = [];
  const counts: number[] = [];
  for (let i = 0; i < targets.count; i++) {
    if (weights[i] === 0) continue;
    from.push(labOfMean(smooth, [tone[3 * i], tone[3 * i + 1], tone[3 * i + 2]]));
    to.push(targets.labs[i]);
    counts.push(weights[i]);
  }
  return { ...smooth, plate: fitThinPlate(from, to, counts, PLATE_SMOOTHING) };
}
