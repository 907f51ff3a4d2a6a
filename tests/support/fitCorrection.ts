import type { Card, PatchSample } from "../../src/card/card.ts";
import { ciede2000 } from "../../src/colour/ciede2000.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { leastSquares } from "../../src/numeric/leastSquares.ts";
import { applyCorrection } from "../../src/calibrate/applyCorrection.ts";
import type { Correction, ModelName } from "../../src/calibrate/correction.ts";
import { fitModel } from "../../src/calibrate/fitModel.ts";
import { fitTargets } from "../../src/calibrate/fitTargets.ts";
import { matrixCondition } from "../../src/calibrate/matrixCondition.ts";
import { toneCurveAt } from "../../src/calibrate/toneCurveAt.ts";

/** A correction with what tells how far to trust it. */
export interface Fit {
  readonly correction: Correction;
  /** CIELAB of every patch as the correction gives it, unusable ones included. */
  readonly labs: readonly Triple[];
  /** CIEDE2000 of every patch between its reference and that. Residuals of a fit on its own patches say little: see `leaveOneOut`. */
  readonly residuals: readonly number[];
  /** Condition number of the 3 x 3 matrix: high where the sensors overlap and noise is amplified. */
  readonly condition: number;
  /** Independent colours among the usable patches, counted in the columns of the matrix fit: 3 (4 for 3x4) where all is well. */
  readonly rank: number;
}

/**
 * Fits one correction model to what one frame shows of a card, and judges the fit on its own patches.
 * @param samples One a patch, in the order of the card.
 * @param usable Which patches may be used, same order.
 * @throws {RangeError} The numbers of samples, patches and flags differ, or fewer than four patches are usable.
 */
export function fitCorrection(
  model: ModelName,
  samples: readonly PatchSample[],
  card: Card,
  usable: readonly boolean[],
): Fit {
  const { patches } = card;
  const count = usable.filter(Boolean).length;
  if (usable.length !== patches.length || count < FEWEST_PATCHES)
    throw new RangeError(
      `Expected a flag for each of ${patches.length} patches and at least ${FEWEST_PATCHES} usable ones, received ${usable.length} flags and ${count}.`,
    );
  const labs = patches.map((patch) => patch.lab);
  const neutral = patches.map((patch) => patch.neutral);
  const weights = usable.map(Number);
  const correction = fitModel(model, fitTargets(samples, labs, neutral), weights);
  const measured = samples.map((sample) => applyCorrection(correction, sample.linear));
  const rows = samples
    .filter((_, i) => usable[i])
    .map(({ linear }) => [
      ...linear.map((value, c) => toneCurveAt(correction.curves[c], value)),
      ...(model === "3x4" ? [1] : []),
    ]);
  return {
    correction,
    labs: measured,
    residuals: measured.map((lab, i) => ciede2000(labs[i], lab)),
    condition: matrixCondition(correction.matrix),
    rank: leastSquares(rows, new Array<number>(rows.length).fill(1)).rank,
  };
}

const FEWEST_PATCHES = 4;
