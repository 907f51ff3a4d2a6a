import type { Card } from "../card/card.ts";
import type { Frames } from "./fitFrames.ts";
import { median } from "../numeric/statistics.ts";
import { LastrinseError } from "../errors.ts";

const LEAST = 0.5;
const MOST = 2;
/** Patches darker than this (linear light, sum of channels over 3) say more about flare than about exposure. */
const DARKEST = 0.03;

/**
 * How many times more light the second frame got than the first: median over the greys of the ratio of linear values.
 * Where no grey is bright enough all patches are taken; NaN where none is.
 */
export function exposureFactor(frames: Frames, card: Card, usable: readonly boolean[]): number {
  const [before, after] = frames;
  const light = (linear: readonly number[]): number => (linear[0] + linear[1] + linear[2]) / 3;
  const ratios = (greysOnly: boolean): number[] =>
    card.patches.flatMap((patch, i) => {
      const first = light(before.samples[i].linear);
      const ratio = light(after.samples[i].linear) / first;
      return first > DARKEST && usable[i] && (patch.neutral || !greysOnly) ? [ratio] : [];
    });
  const greys = ratios(true);
  return median(greys.length > 0 ? greys : ratios(false));
}

/**
 * @param input The second frame's file, for the refusal.
 * @throws {LastrinseError} frames-differ: the factor lies outside 0.5 to 2.
 */
export function requireLikeExposure(factor: number, input?: string): void {
  if (factor >= LEAST && factor <= MOST) return;
  throw new LastrinseError(
    "frames-differ",
    `Expected both frames exposed alike, within a factor of ${MOST}, received an "after" frame with ${factor.toFixed(2)} times the light of the "before" frame.`,
    {
      remedy:
        "Take the after frame again with the settings of the before frame, automatic exposure switched off.",
      input,
    },
  );
}
