import type { Card } from "../card/card.ts";
import type { Warning } from "../errors.ts";
import type { DroppedPatch } from "./usablePatches.ts";

/** Mean leave-one-out errors (dE00) above which colours are called approximate and the card doubtful. */
const APPROXIMATE = 3;
const DOUBTFUL = 4;

/** Names the patches that were left out, and why. */
export function droppedWarnings(
  dropped: readonly DroppedPatch[],
  whiteDropped: boolean,
  lightestGreyL: number,
): Warning[] {
  const named = (reasons: readonly DroppedPatch["reason"][]): string =>
    dropped
      .filter(({ reason }) => reasons.includes(reason))
      .map(({ name }) => name)
      .join(", ");
  const clipped = named(["clipped", "too-dark", "not-seen"]);
  const marred = named(["marred"]);
  const warnings: Warning[] = [];
  if (clipped !== "")
    warnings.push({
      code: "clipping",
      message: `Patches of the card that are burnt out, too dark or outside the frame were left out: ${clipped}.${whiteDropped ? ` Colours lighter than L* ${lightestGreyL.toFixed(0)} are outside the calibrated range.` : ""}`,
    });
  if (marred !== "")
    warnings.push({
      code: "patch-left-out",
      message: `Patches that do not fit what the rest of the card says were left out: ${marred}. Look for dust, a scratch, a shadow or a reflection there; a phone may also render a strong colour in its own way.`,
    });
  return warnings;
}

/**
 * Says how far the card's colours can be trusted.
 * @param worst Mean leave-one-out error of the worse frame.
 */
export function trustWarnings(card: Card, worst: number): Warning[] {
  if (!card.measured)
    return [
      {
        code: "differences-only",
        message: `Nobody measured the card ${card.name}: changes can be shown, absolute colours are rough.`,
      },
    ];
  if (worst > DOUBTFUL)
    return [
      {
        code: "card-doubtful",
        message: `The card fits badly (mean leave-one-out error ${worst.toFixed(1)} dE00): check that its edition is right, that it is evenly lit and that nothing lies on it.`,
      },
      approximate(worst),
    ];
  return worst > APPROXIMATE ? [approximate(worst)] : [];
}

function approximate(worst: number): Warning {
  return {
    code: "approximate-colour",
    message: `Absolute colours are approximate: mean leave-one-out error ${worst.toFixed(1)} dE00.`,
  };
}

/** Names the greys that disagree between the two frames. */
export function toneWarnings(
  apart: readonly { readonly name: string; readonly deltaL: number }[],
): Warning[] {
  if (apart.length === 0) return [];
  const greys = apart.map(
    ({ name, deltaL }) => `${name} ${deltaL > 0 ? "+" : ""}${deltaL.toFixed(1)}`,
  );
  return [
    {
      code: "tone-differs",
      message: `The greys of the card disagree between the two frames by more than 1 L* after exposure and white balance: ${greys.join(", ")}. Look for automatic brightness, contrast or colour in the scanner's settings. The calibration takes out what the card shows of it.`,
    },
  ];
}
