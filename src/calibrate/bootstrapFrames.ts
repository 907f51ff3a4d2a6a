import type { Card } from "../card/card.ts";
import { seededRandom } from "../numeric/random.ts";
import type { CalibrationChoice } from "./chooseCorrection.ts";
import type { Correction } from "./correction.ts";
import type { Frames } from "./fitFrames.ts";
import { fitFrames, frameTargets } from "./fitFrames.ts";

/** Rounds: the spread of a standard deviation estimated from 200 is 5 %. */
const ROUNDS = 200;
/** A round with fewer different patches, or fewer different greys, would not be a calibration anybody would use: drawn again. */
const FEWEST_DISTINCT = 10;
const FEWEST_DISTINCT_GREYS = 3;

export interface BootstrapOptions {
  /** Any integer. */
  readonly seed: number;
  /** Default 200. */
  readonly rounds?: number;
}

/**
 * Calibrations of the same frames from other draws of patches: each round draws as many patches as there are, with replacement, the same
 * ones for all frames.
 * @returns One list of corrections (one a frame) a round.
 */
export function bootstrapFrames(
  frames: Frames,
  card: Card,
  choice: CalibrationChoice,
  { seed, rounds = ROUNDS }: BootstrapOptions,
): readonly (readonly Correction[])[] {
  const random = seededRandom(seed);
  const targets = frameTargets(frames, card);
  const near = choice.frames.map((frame) => frame.correction);
  const indices = choice.usable.flatMap((use, i) => (use ? [i] : []));
  const draw = (): Float64Array => {
    for (;;) {
      const weights = new Float64Array(choice.usable.length);
      for (let k = 0; k < indices.length; k++) weights[indices[random.below(indices.length)]]++;
      const distinct = indices.filter((i) => weights[i] > 0);
      if (
        distinct.length >= FEWEST_DISTINCT &&
        distinct.filter((i) => card.patches[i].neutral).length >= FEWEST_DISTINCT_GREYS
      )
        return weights;
    }
  };
  return Array.from({ length: rounds }, () => fitFrames(choice.model, targets, draw(), near));
}
