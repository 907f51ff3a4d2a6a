import type { Card, PatchSample } from "../../card/card.ts";
import { labToXyzD50 } from "../../colour/lab.ts";
import { SRGB_TO_XYZ_D50 } from "../../colour/srgb.ts";
import type { Triple } from "../../numeric/triple.ts";
import { invert3, multiply3Vector } from "../../numeric/matrix3.ts";

/** A grey of the card as it should be and as the photo shows it; both linear sRGB, D50 white = 1. */
export interface GreySample {
  readonly reference: Triple;
  readonly linear: Triple;
}

const XYZ_TO_SRGB = invert3(SRGB_TO_XYZ_D50);

/** More than this share of clipped pixels spoils a patch. */
const MOST_CLIPPED_HIGH = 0.05;
const MOST_CLIPPED_LOW = 0.3;

/**
 * The greys of a card for finding the tone curve, lightest first; clipped ones are left out. An unmeasured card gives none: its
 * printed greys are aims, and the curve would be fitted to the printer.
 */
export function greysOfCard(card: Card, samples: readonly PatchSample[]): GreySample[] {
  if (!card.measured) return [];
  return card.patches
    .map((patch, i) => ({ patch, sample: samples[i] }))
    .filter(
      ({ patch, sample }) =>
        patch.neutral &&
        sample.clippedHigh <= MOST_CLIPPED_HIGH &&
        sample.clippedLow <= MOST_CLIPPED_LOW &&
        Math.min(...sample.linear) > 0,
    )
    .sort((a, b) => b.patch.lab[0] - a.patch.lab[0])
    .map(({ patch, sample }) => ({
      reference: multiply3Vector(XYZ_TO_SRGB, labToXyzD50(patch.lab)),
      linear: sample.linear,
    }));
}
