import { PAIR_DEFAULTS } from "./pairOptions.ts";
import type { PairOptions } from "./pairOptions.ts";

/**
 * The pair of the samples: a well washed cover. The paper is visibly lighter and less yellow; about an eighth of the red has gone,
 * a little blue, hardly any yellow, no black. 200 dpi and modest noise keep the files small enough to hand out.
 */
export const SAMPLE_PAIR: PairOptions = {
  ...PAIR_DEFAULTS,
  dpiBefore: 200,
  dpiAfter: 200,
  inkLoss: { yellow: 0.01, red: 0.12, blue: 0.03, black: 0 },
  noise: 0.6,
  grain: 0.02,
  cardPitchMm: 12,
  seed: 1,
};
