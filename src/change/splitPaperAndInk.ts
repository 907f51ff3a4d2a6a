import { scaledChiSquared } from "../calibrate/covarianceRadius.ts";
import { differenceInterval } from "../calibrate/differenceInterval.ts";
import { ciede2000 } from "../colour/ciede2000.ts";
import type { Triple } from "../colour/triple.ts";
import type { Matrix3 } from "../numeric/matrix3.ts";
import { expectByScaling } from "./expectOnPaper.ts";

/** A colour before and after, with the covariance of its measured Lab difference. */
export interface MeasuredDifference {
  readonly labBefore: Triple;
  readonly labAfter: Triple;
  readonly covariance: Matrix3;
}

export interface PaperAndInk {
  /** dE00 explained by the paper's own change under an untouched ink. */
  readonly paperPart: number;
  /** dE00 between the untouched ink as expected on the changed paper and the ink as measured: what is left for loss of ink. */
  readonly inkPart: number;
  /** 95 % interval of the ink part. */
  readonly low: number;
  readonly high: number;
  /** The ink has moved towards the paper, as lost ink does. */
  readonly towardsPaper: boolean;
}

/** Standard deviation of the expectation, as a share of the change it predicts: how well the model of ink on paper holds. */
const MODEL_SHARE = 0.15;

/**
 * Splits the change of an ink into the part that the paper explains and the part left for loss of ink: a whiter paper
 * lightens every ink printed on it, which is no fading.
 */
export function splitPaperAndInk(ink: MeasuredDifference, paper: MeasuredDifference): PaperAndInk {
  const expected = expectByScaling(ink.labBefore, paper.labBefore, paper.labAfter);
  const shift = Math.hypot(...subtract(expected, ink.labBefore));
  const paperShift = Math.hypot(...subtract(paper.labAfter, paper.labBefore));
  const leverage = paperShift === 0 ? 0 : shift / paperShift;
  const model = (MODEL_SHARE * shift) ** 2;
  const covariance = ink.covariance.map(
    (value, i) => value + leverage ** 2 * paper.covariance[i] + (i % 4 === 0 ? model : 0),
  ) as unknown as Matrix3;
  const inkPart = ciede2000(expected, ink.labAfter);
  const { low, high } = differenceInterval(inkPart, scaledChiSquared(covariance, ink.labAfter));
  return {
    paperPart: ciede2000(ink.labBefore, expected),
    inkPart,
    low,
    high,
    towardsPaper: ciede2000(ink.labAfter, paper.labAfter) < ciede2000(expected, paper.labAfter),
  };
}

function subtract(a: Triple, b: Triple): Triple {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
}
