import type { Card, PatchSample } from "../card/card.ts";
import type { Triple } from "../numeric/triple.ts";
import { applyCorrection } from "./applyCorrection.ts";
import type { Correction, ModelName } from "./correction.ts";
import { fitModel } from "./fitModel.ts";
import type { FitTargets } from "./fitTargets.ts";
import { fitTargets } from "./fitTargets.ts";

/** One or two frames to be calibrated together, before then after. */
export type Frames = readonly {
  readonly samples: readonly PatchSample[];
  /** Named in refusals. */
  readonly file?: string | undefined;
}[];

export interface FrameTargets {
  readonly samples: Frames;
  readonly targets: readonly FitTargets[];
  readonly neutral: readonly boolean[];
  /** false: nobody measured this card. The first frame takes its aims for a rough absolute scale, the second is mapped onto the first. */
  readonly measured: boolean;
}

/** Puts the frames beside the card. */
export function frameTargets(frames: Frames, card: Card): FrameTargets {
  const labs = card.patches.map((patch) => patch.lab);
  const neutral = card.patches.map((patch) => patch.neutral);
  return {
    samples: frames,
    targets: frames.map(({ samples }) => fitTargets(samples, labs, neutral)),
    neutral,
    measured: card.measured,
  };
}

/**
 * Fits the frames with one model and one choice of patches.
 *
 * With an unmeasured card the first frame gets a plain 3x3 to the printing aims: aims know nothing of the printer's dot gain, so they
 * may not bend a tone curve. The second frame is then fitted to what the first one shows of each patch, which needs no reference
 * values at all. That holds as long as both come from one scanner.
 * @param weights How often each patch counts, in all frames alike.
 * @param near Fits of the same model to nearly the same patches.
 */
export function fitFrames(
  model: ModelName,
  { samples, targets, neutral, measured }: FrameTargets,
  weights: ArrayLike<number>,
  near?: readonly Correction[],
): readonly Correction[] {
  if (measured) return targets.map((target, i) => fitModel(model, target, weights, near?.[i]));
  const first: Correction = {
    ...fitModel("3x3", targets[0], weights, near && { ...near[0], model: "3x3" }),
    model,
    curves: UNIT_POWERS,
  };
  return targets.map((_, i) => {
    if (i === 0) return first;
    const seen = samples[0].samples.map((sample): Triple => applyCorrection(first, sample.linear));
    return fitModel(model, fitTargets(samples[i].samples, seen, neutral), weights, first);
  });
}

const UNIT_POWERS = [
  { kind: "power", offset: 0, exponent: 1 },
  { kind: "power", offset: 0, exponent: 1 },
  { kind: "power", offset: 0, exponent: 1 },
] as const;
