import type { Triple } from "../numeric/triple.ts";
import { expectByLayers } from "./expectByLayers.ts";
import { labOfSoftBands, softBands } from "./softBands.ts";

/** How an ink lies on its paper, and what its surface lost. */
export interface Surface {
  /** 0: ink and paper are one opaque mixture (newsprint, uncoated book paper); 1: a clear film on the paper (coated stock). */
  readonly film: number;
  /** Light that a duller surface scatters back, evenly over all waves, as a share of the perfect diffuser's. 0 where the gloss stayed. */
  readonly gloss: number;
}

/**
 * The colour an untouched ink would show on the changed paper, for every way in which it may lie there. As a mixture with its paper
 * it shows the little that the two-layer model lets through; as a film it shows the paper's change whole, band by
 * band; in between, shares of the logarithm of either. Loss of gloss is added on top.
 * @param paperBefore CIELAB D50 of the bare paper before.
 * @param ink CIELAB D50 of the ink before.
 * @param paperAfter CIELAB D50 of the bare paper after.
 * @returns CIELAB D50; NaN where any input is not finite.
 */
export function expectUntouched(
  paperBefore: Triple,
): (ink: Triple) => (paperAfter: Triple) => (surface: Surface) => Triple {
  const byLayers = expectByLayers(paperBefore);
  const from = softBands(paperBefore);
  return (ink) => {
    const onPaper = byLayers(ink);
    const printed = softBands(ink);
    return (paperAfter) => {
      const asMixture = onPaper(paperAfter);
      const mixture = softBands(asMixture);
      const to = softBands(paperAfter);
      return ({ film, gloss }) => {
        if (film === 0 && gloss === 0) return asMixture;
        // The paper as measured holds the added light as well: an ink shows the paper without it.
        const band = (c: number): number =>
          mixture[c] ** (1 - film) *
            ((printed[c] * to[c]) / from[c]) ** film *
            (1 - gloss / to[c]) +
          gloss;
        return labOfSoftBands([band(0), band(1), band(2)]);
      };
    };
  };
}
