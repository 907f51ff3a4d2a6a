import { LastrinseError } from "../errors.ts";
import type { Card } from "../card/card.ts";
import type { Frames } from "./fitFrames.ts";

/** Share of a patch's pixels that may have a channel at full scale, and that may have one at zero (by judgement, no source). */
const CLIPPED_HIGH = 0.05;
const CLIPPED_LOW = 0.3;

/** Fewer patches than this, or fewer greys, do not carry a fit and its check. */
const FEWEST_PATCHES = 18;
const FEWEST_GREYS = 4;

export interface DroppedPatch {
  readonly name: string;
  /** clipped: burnt out; too-dark: crushed to black; not-seen: outside the frame; marred: does not fit what the other patches say. */
  readonly reason: "clipped" | "too-dark" | "not-seen" | "marred";
}

export interface UsablePatches {
  readonly usable: readonly boolean[];
  readonly dropped: readonly DroppedPatch[];
}

/** Patches whose pixels are neither burnt out nor crushed in any of the frames: a patch is dropped in all or in none. */
export function usablePatches(frames: Frames, card: Card): UsablePatches {
  const dropped: DroppedPatch[] = [];
  const usable = card.patches.map(({ name }, i) => {
    const unseen = frames.some(({ samples }) => !samples[i].linear.every(Number.isFinite));
    const clipped = frames.some(({ samples }) => samples[i].clippedHigh > CLIPPED_HIGH);
    const dark = frames.some(({ samples }) => samples[i].clippedLow > CLIPPED_LOW);
    if (unseen) dropped.push({ name, reason: "not-seen" });
    else if (clipped) dropped.push({ name, reason: "clipped" });
    else if (dark) dropped.push({ name, reason: "too-dark" });
    return !unseen && !clipped && !dark;
  });
  return { usable, dropped };
}

/**
 * Refuses a card of which too little is left.
 * @param input The frame's file, for the refusal.
 * @throws {LastrinseError} card-untrusted: fewer than 18 usable patches, or fewer than 4 usable greys.
 */
export function requireEnoughPatches(
  card: Card,
  { usable, dropped }: UsablePatches,
  input?: string,
): void {
  const patches = usable.filter(Boolean).length;
  const greys = card.patches.filter((patch, i) => patch.neutral && usable[i]).length;
  if (patches >= FEWEST_PATCHES && greys >= FEWEST_GREYS) return;
  const burnt = dropped.filter(({ reason }) => reason === "clipped").length;
  const lost = dropped.map(({ name, reason }) => `${name} (${WORDS[reason]})`).join(", ");
  throw new LastrinseError(
    "card-untrusted",
    `Expected at least ${FEWEST_PATCHES} usable patches with ${FEWEST_GREYS} greys on the card ${card.name}, received ${patches} with ${greys}${lost === "" ? "" : `; lost: ${lost}`}.`,
    {
      input,
      remedy:
        dropped.length === 0
          ? "Use a card with at least 18 patches, four of them grey."
          : burnt > dropped.length / 2
            ? "Take the frame again with less exposure, so that the white of the card is not burnt out."
            : "Take the frame again with more light on the card, and keep shadow and reflections off it.",
    },
  );
}

const WORDS = {
  clipped: "burnt out",
  "too-dark": "too dark",
  "not-seen": "outside the frame",
  marred: "marred",
} as const;
