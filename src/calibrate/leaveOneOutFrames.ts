import type { Triple } from "../numeric/triple.ts";
import { applyCorrection } from "./applyCorrection.ts";
import type { ModelName } from "./correction.ts";
import type { FrameTargets } from "./fitFrames.ts";
import { fitFrames } from "./fitFrames.ts";

/**
 * What each usable patch looks like to fits that never saw it: each in turn is left out of all frames at once, and predicted.
 * @returns One list a frame, in the order of the card; null for patches that are not usable.
 */
export function leaveOneOutFrames(
  model: ModelName,
  frames: FrameTargets,
  usable: readonly boolean[],
): readonly (readonly (Triple | null)[])[] {
  const weights = usable.map(Number);
  const all = fitFrames(model, frames, weights);
  const predicted = usable.map((use, i) => {
    if (!use) return null;
    weights[i] = 0;
    const corrections = fitFrames(model, frames, weights, all);
    weights[i] = 1;
    return corrections.map((correction, f) =>
      applyCorrection(correction, frames.samples[f].samples[i].linear),
    );
  });
  return frames.targets.map((_, f) => predicted.map((labs) => labs && labs[f]));
}
