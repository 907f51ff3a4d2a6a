import { mixtureQuantile } from "./mixtureQuantile.ts";

/** One plate's loss by one film. */
export interface FilmLoss {
  readonly weight: number;
  readonly loss: number;
  /** The same without the bound at 0. */
  readonly raw: number;
  readonly sd: number;
  readonly film: number;
}

/** A plate's loss over all films: fractions of its colourant. */
export interface LossInterval {
  readonly lost: number;
  readonly low: number;
  readonly high: number;
}

const LOW_SHARE = 0.03;
const HIGH_SHARE = 0.97;
const LAW_SHARE = 0.15;
const LAW_SD = 0.01;
const BLACK_SD = 0.05;

/**
 * The loss and its interval, 3 to 97 %, over the films together; lopsided as it comes out.
 * @param stir q: where hardly anything changed the law errs less.
 */
export function mixtureInterval(
  films: readonly FilmLoss[],
  stir: number,
  black: boolean,
): LossInterval {
  const lost = films.reduce((sum, { weight, loss }) => sum + weight * loss, 0);
  const spread = films.map(({ loss, sd, film }) =>
    Math.sqrt(
      sd * sd +
        (LAW_SHARE * loss) ** 2 +
        ((LAW_SD * stir) / (1 + film)) ** 2 +
        (black ? BLACK_SD * BLACK_SD : 0),
    ),
  );
  const weights = films.map(({ weight }) => weight);
  const quantile = (mean: (film: FilmLoss) => number, share: number): number =>
    mixtureQuantile(films.map(mean), spread, weights, share);
  return {
    lost,
    low: Math.max(
      0,
      quantile(({ loss, raw }) => Math.min(loss, raw), LOW_SHARE),
    ),
    high: Math.max(
      lost,
      quantile(({ loss, raw }) => Math.max(loss, raw), HIGH_SHARE),
    ),
  };
}
