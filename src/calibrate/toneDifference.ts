import type { Card } from "../card/card.ts";
import { median } from "../numeric/statistics.ts";
import { applyCorrection } from "./applyCorrection.ts";
import type { Correction } from "./correction.ts";
import type { Frames } from "./fitFrames.ts";
import { mapTriple } from "../numeric/mapTriple.ts";

/** Greys apart by more than this in L* give away a tone setting that changed between the frames (practice page, 7). */
const LARGEST_DIFFERENCE = 1;

/**
 * Greys that disagree between two frames after both were brought to one exposure and one white balance.
 * Each channel of the second frame is scaled by its median ratio over the greys; what is left is a change of tone: brightness or
 * contrast applied by the device, or flare.
 * @param reference Correction of the first frame: only its lightness scale is used.
 * @returns The greys apart by more than 1 L*, in the order of the card; `deltaL` is after minus before.
 */
export function toneDifference(
  [before, after]: Frames,
  card: Card,
  usable: readonly boolean[],
  reference: Correction,
): readonly { readonly name: string; readonly deltaL: number }[] {
  const greys = card.patches.flatMap(({ name, neutral }, i) =>
    neutral && usable[i]
      ? [{ name, first: before.samples[i].linear, second: after.samples[i].linear }]
      : [],
  );
  const gain = [0, 1, 2].map((c) =>
    median(greys.flatMap(({ first, second }) => (second[c] > 0 ? [first[c] / second[c]] : []))),
  );
  return greys
    .map(({ name, first, second }) => {
      const scaled = mapTriple(second, (value, c) => value * gain[c]);
      const deltaL = applyCorrection(reference, scaled)[0] - applyCorrection(reference, first)[0];
      return { name, deltaL };
    })
    .filter(({ deltaL }) => Math.abs(deltaL) > LARGEST_DIFFERENCE);
}
