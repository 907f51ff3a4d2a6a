import { invert3 } from "../numeric/matrix3.ts";
import type { Unknowns } from "./unknowns.ts";

/** Before anything is measured: what the unknowns of one film may be. */
export interface FilmPrior {
  readonly mean: Float64Array;
  /** Inverse prior covariance, count x count. */
  readonly precision: Float64Array;
}

/** A blend lets the share h of the paper's change through whole; a little lay on top. */
export const THROUGH_OF_MIXTURE = 0.9;
const THROUGH_COMMON_SD = 0.15;
const THROUGH_BAND_SD = 0.05;
const LOSS_SD = 0.3;
const LOSS_SD_BLACK = 0.1;
export const DRIFT_SD = 0.003;
const LIGHT_COMMON_SD = 0.0005;
/** Gloss that washing took off adds an equal light, the more the more film. */
const LIGHT_GLOSS_SD = 0.003;
const LIGHT_BAND_SD = 0.0004;
const ANSWER_SD_SHARE = 0.2;
const ANSWER_SD = 0.001;
const INK_THROUGH_SD = 0.08;

/**
 * The prior of section 4 of the method for one film.
 * @param losses Losses as they stand: the ink's answer may be off by a share of them.
 * @param offsetCovariance Of the paper's offset, 3 x 3.
 */
export function filmPrior(options: {
  readonly unknowns: Unknowns;
  readonly film: number;
  readonly black: readonly boolean[];
  readonly losses: ArrayLike<number>;
  readonly offsetCovariance: Float64Array;
  readonly driftSd: number;
}): FilmPrior {
  const { unknowns: at, film, black, losses, offsetCovariance, driftSd } = options;
  const mean = new Float64Array(at.count);
  const precision = new Float64Array(at.count * at.count);
  const alone = (index: number, sd: number): void => {
    precision[index * at.count + index] = 1 / (sd * sd);
  };
  const block = (index: (band: number) => number, covariance: Float64Array): void => {
    const inverse = inverse3(covariance);
    for (let c = 0; c < 3; c++)
      for (let d = 0; d < 3; d++) precision[index(c) * at.count + index(d)] = inverse[3 * c + d];
  };
  for (let i = 0; i < at.plates; i++) {
    alone(at.loss(i), black[i] ? LOSS_SD_BLACK : LOSS_SD);
    for (let c = 0; c < 3; c++) {
      alone(at.answer(i, c), ANSWER_SD_SHARE * Math.abs(losses[i]) + ANSWER_SD);
      alone(at.inkThrough(i, c), INK_THROUGH_SD);
    }
  }
  block(at.offset, offsetCovariance);
  block(at.through, tied(THROUGH_COMMON_SD, THROUGH_BAND_SD));
  block(at.light, tied(LIGHT_COMMON_SD + LIGHT_GLOSS_SD * film, LIGHT_BAND_SD));
  for (let c = 0; c < 3; c++) {
    alone(at.drift(c), driftSd);
    mean[at.through(c)] = THROUGH_OF_MIXTURE * (1 - film);
  }
  return { mean, precision };
}

/** Covariance of three bands that share one error and have one each. */
function tied(common: number, each: number): Float64Array {
  return Float64Array.from(
    { length: 9 },
    (_, i) => common * common + (i % 4 === 0 ? each * each : 0),
  );
}

function inverse3(A: Float64Array): readonly number[] {
  const [a, b, c, d, e, f, g, h, i] = A;
  return invert3([a, b, c, d, e, f, g, h, i]);
}
