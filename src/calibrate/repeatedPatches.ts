import type { Card, PatchSample } from "../card/card.ts";
import { mean } from "../numeric/statistics.ts";

/** Patches of a card with the same reference value, like the grey steps along both edges of a strip. */
export interface RepeatedPatch {
  readonly names: readonly string[];
  /** Largest minus smallest light among them as a share of their mean; the worst channel. */
  readonly spread: number;
}

/** Darker patches (linear light) tell more of noise and flare than of light. */
const DARKEST = 0.05;

/**
 * What repeated patches say about the evenness of the light: equal patches should be equally bright. A warning sign only: fitting a
 * field to the patches of the card made more of 24 real photos worse than better.
 * @param usable Which patches may be used, in the order of the card.
 * @returns One entry for each reference value that occurs more than once among usable patches.
 */
export function repeatedPatches(
  samples: readonly PatchSample[],
  card: Card,
  usable: readonly boolean[],
): readonly RepeatedPatch[] {
  const groups = new Map<string, PatchSample[]>();
  card.patches.forEach(({ lab }, i) => {
    if (!usable[i] || samples[i].linear.some((value) => !(value > DARKEST))) return;
    const key = lab.join();
    groups.set(key, [...(groups.get(key) ?? []), samples[i]]);
  });
  return [...groups.values()]
    .filter((group) => group.length > 1)
    .map((group) => ({
      names: group.map(({ name }) => name),
      spread: Math.max(
        ...[0, 1, 2].map((c) => {
          const values = group.map(({ linear }) => linear[c]);
          return (Math.max(...values) - Math.min(...values)) / mean(values);
        }),
      ),
    }));
}
