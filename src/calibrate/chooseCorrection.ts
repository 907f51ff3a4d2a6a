import type { Card } from "../card/card.ts";
import type { Triple } from "../numeric/triple.ts";
import type { Warning } from "../errors.ts";
import { LastrinseError } from "../errors.ts";
import { applyCorrection } from "./applyCorrection.ts";
import { droppedWarnings, toneWarnings, trustWarnings } from "./calibrationWarnings.ts";
import type { Correction, ModelName } from "./correction.ts";
import { exposureFactor, requireLikeExposure } from "./exposureFactor.ts";
import type { Frames } from "./fitFrames.ts";
import { frameTargets } from "./fitFrames.ts";
import type { LeaveOneOut } from "./leaveOneOut.ts";
import { leaveOneOutSummary } from "./leaveOneOut.ts";
import { matrixCondition } from "./matrixCondition.ts";
import { selectModel } from "./selectModel.ts";
import { toneDifference } from "./toneDifference.ts";
import type { DroppedPatch } from "./usablePatches.ts";
import { requireEnoughPatches, usablePatches } from "./usablePatches.ts";

/** Mean leave-one-out error (dE00) above which the card is not to be trusted. */
const UNTRUSTED = 8;

/** The same where the reference values are only what a printer was asked for: a poor print misses its aims by 5 to 10. */
const UNTRUSTED_AIMS = 15;

export interface FrameCalibration {
  readonly correction: Correction;
  /** null for a card nobody measured. */
  readonly leaveOneOut: LeaveOneOut | null;
  /** CIELAB D50 of every patch of the card as this frame shows it, dropped ones included. */
  readonly patchLabs: readonly Triple[];
  /** Condition number of the 3 x 3 matrix. */
  readonly condition: number;
}

export interface CalibrationChoice {
  readonly model: ModelName;
  /** Before then after; one for a single frame. */
  readonly frames: readonly FrameCalibration[];
  /** In the order of the card; the same for all frames. */
  readonly usable: readonly boolean[];
  readonly droppedPatches: readonly DroppedPatch[];
  /** false: the card gives differences only, absolute colours are rough. */
  readonly measured: boolean;
  /** L* of the lightest grey that was used. Where the card's own lightest grey was dropped, areas lighter than this are outside the
   * calibrated range: say so. */
  readonly lightestGreyL: number;
  readonly whiteDropped: boolean;
  /** Light of the second frame by that of the first; null for a single frame. */
  readonly exposureFactor: number | null;
  readonly warnings: readonly Warning[];
}

/**
 * Calibrates one frame, or the two of a pair with the same model and the same patches.
 * @param frames What each frame shows of the card, before then after.
 * @param card The card as its maker (or a file) describes it.
 * @returns The corrections, how far to trust them, and what the user must be told.
 * @throws {LastrinseError} card-untrusted: too few usable patches, or a mean leave-one-out error above 8 in a frame.
 * frames-differ: exposure apart by more than a factor of 2.
 * @throws {RangeError} Not one or two frames, or another number of samples than the card has patches.
 */
export function chooseCorrection(frames: Frames, card: Card): CalibrationChoice {
  if (frames.length < 1 || frames.length > 2)
    throw new RangeError(`Expected one frame or two, received ${frames.length}.`);
  for (const { samples } of frames)
    if (samples.length !== card.patches.length)
      throw new RangeError(
        `Expected ${card.patches.length} samples of the card ${card.name}, received ${samples.length}.`,
      );
  const unspoilt = usablePatches(frames, card);
  const factor = frames.length === 2 ? exposureFactor(frames, card, unspoilt.usable) : null;
  if (factor !== null && Number.isFinite(factor)) requireLikeExposure(factor, frames[1].file);
  requireEnoughPatches(card, unspoilt, frames.length === 1 ? frames[0].file : undefined);

  const targets = frameTargets(frames, card);
  const { model, patches, predicted, corrections } = selectModel(targets, card, unspoilt);
  const { usable, dropped } = patches;
  const labs = card.patches.map((patch) => patch.lab);
  const calibrated = corrections.map((correction, f): FrameCalibration => ({
    correction,
    leaveOneOut: card.measured ? leaveOneOutSummary(labs, predicted[f]) : null,
    patchLabs: frames[f].samples.map((sample) => applyCorrection(correction, sample.linear)),
    condition: matrixCondition(correction.matrix),
  }));
  // An unmeasured card has aims for the first frame, and the first frame for the second.
  const errors = predicted.map((frame, f) =>
    leaveOneOutSummary(card.measured || f === 0 ? labs : calibrated[0].patchLabs, frame),
  );
  errors.forEach(({ mean }, f) => {
    const limit = card.measured || f > 0 ? UNTRUSTED : UNTRUSTED_AIMS;
    if (!(mean <= limit)) throw untrusted(card, mean, limit, frames[f].file);
    if (!growsWithLight(corrections[f])) throw negative(card, frames[f].file);
  });
  const worst = Math.max(...errors.map(({ mean }) => mean));

  const greys = card.patches.flatMap(({ lab, neutral }, i) =>
    neutral ? [{ L: lab[0], used: usable[i] }] : [],
  );
  const lightestGreyL = Math.max(...greys.filter(({ used }) => used).map(({ L }) => L));
  const whiteDropped = Math.max(...greys.map(({ L }) => L)) > lightestGreyL;
  const warnings: Warning[] = [
    ...droppedWarnings(dropped, whiteDropped, lightestGreyL),
    ...trustWarnings(card, worst),
    ...(frames.length === 2
      ? toneWarnings(toneDifference(frames, card, usable, corrections[0]))
      : []),
  ];
  return {
    model,
    frames: calibrated,
    usable,
    droppedPatches: dropped,
    measured: card.measured,
    lightestGreyL,
    whiteDropped,
    exposureFactor: factor,
    warnings,
  };
}

/** A negative can fit a card as well as a positive: its luminance falls where the codes rise. */
function growsWithLight({ matrix }: Correction): boolean {
  return matrix[3] + matrix[4] + matrix[5] > 0;
}

function untrusted(card: Card, mean: number, limit: number, input?: string): LastrinseError {
  return new LastrinseError(
    "card-untrusted",
    `Expected the colours of the card ${card.name} to follow its reference values within ${limit} dE00, received a mean leave-one-out error of ${mean.toFixed(1)}.`,
    {
      remedy:
        "Check that the right card was named and that it lies flat, clean and evenly lit in the frame; then take the frame again.",
      input,
    },
  );
}

function negative(card: Card, input?: string): LastrinseError {
  return new LastrinseError(
    "card-untrusted",
    `Expected the white of the card ${card.name} to be light, received a negative.`,
    {
      remedy: "Scan again with the setting for reflective originals, colours not inverted.",
      input,
    },
  );
}
