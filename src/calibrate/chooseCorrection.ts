import type { Card } from "../card/card.ts";
import { ciede2000 } from "../colour/ciede2000.ts";
import type { Triple } from "../colour/triple.ts";
import type { Warning } from "../errors.ts";
import { LastrinseError } from "../errors.ts";
import { applyCorrection } from "./applyCorrection.ts";
import { chooseModel, DEFAULT_MODEL } from "./chooseModel.ts";
import type { Correction, ModelName } from "./correction.ts";
import { MODEL_NAMES } from "./correction.ts";
import { exposureFactor, requireLikeExposure } from "./exposureFactor.ts";
import type { Frames, FrameTargets } from "./fitFrames.ts";
import { fitFrames, frameTargets } from "./fitFrames.ts";
import type { LeaveOneOut } from "./leaveOneOut.ts";
import { leaveOneOutSummary } from "./leaveOneOut.ts";
import { leaveOneOutFrames } from "./leaveOneOutFrames.ts";
import { nullDifferences } from "./cardNull.ts";
import { marredPatch } from "./marredPatch.ts";
import { matrixCondition } from "./matrixCondition.ts";
import { toneDifference } from "./toneDifference.ts";
import type { DroppedPatch, UsablePatches } from "./usablePatches.ts";
import { requireEnoughPatches, usablePatches } from "./usablePatches.ts";

/** Mean leave-one-out errors (dE00) above which colours are called approximate, the card doubtful, the card not to be trusted. */
const APPROXIMATE = 3;
const DOUBTFUL = 4;
const UNTRUSTED = 8;

/** A card with more marred patches than this is not marred: the models do not reach it, and dropping patches would hide that. */
const MOST_MARRED = 2;

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
  if (factor !== null && Number.isFinite(factor)) requireLikeExposure(factor);
  requireEnoughPatches(card, unspoilt);

  const targets = frameTargets(frames, card);
  const { model, patches, predicted, corrections } = choose(targets, card, unspoilt);
  const { usable, dropped } = patches;
  const labs = card.patches.map((patch) => patch.lab);
  const calibrated = corrections.map((correction, f): FrameCalibration => ({
    correction,
    leaveOneOut: card.measured ? leaveOneOutSummary(labs, predicted[f]) : null,
    patchLabs: frames[f].samples.map((sample) => applyCorrection(correction, sample.linear)),
    condition: matrixCondition(correction.matrix),
  }));
  const worst = Math.max(...calibrated.map(({ leaveOneOut }) => leaveOneOut?.mean ?? 0));
  if (worst > UNTRUSTED) throw untrusted(card, worst);

  const greys = card.patches.flatMap(({ lab, neutral }, i) =>
    neutral ? [{ L: lab[0], used: usable[i] }] : [],
  );
  const lightestGreyL = Math.max(...greys.filter(({ used }) => used).map(({ L }) => L));
  const whiteDropped = Math.max(...greys.map(({ L }) => L)) > lightestGreyL;
  const warnings: Warning[] = [
    ...droppedWarnings(dropped, whiteDropped, lightestGreyL),
    ...trustWarnings(card, worst),
  ];
  if (frames.length === 2) {
    const apart = toneDifference(frames, card, usable, corrections[0]);
    if (apart.length > 0)
      warnings.push({
        code: "tone-differs",
        message: `The greys of the card disagree between the two frames by more than 1 L* after exposure and white balance: ${apart.map(({ name, deltaL }) => `${name} ${deltaL > 0 ? "+" : ""}${deltaL.toFixed(1)}`).join(", ")}. Look for automatic brightness, contrast or colour in the scanner's settings. The calibration takes out what the card shows of it.`,
      });
  }
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

interface Chosen {
  readonly model: ModelName;
  readonly patches: UsablePatches;
  readonly predicted: readonly (readonly (Triple | null)[])[];
  readonly corrections: readonly Correction[];
}

/** Chooses the model, drops the worst marred patch if there is one, and chooses again. */
function choose(targets: FrameTargets, card: Card, unspoilt: UsablePatches): Chosen {
  // Without reference values nothing ranks the models; the default maps one frame onto the other.
  const models = card.measured ? MODEL_NAMES : [DEFAULT_MODEL];
  let patches = unspoilt;
  for (let marred = 0; ; marred++) {
    const { usable } = patches;
    const tried = models.map((model) => {
      const predicted = leaveOneOutFrames(model, targets, usable);
      const errors = errorsOf(targets, card, predicted);
      return { model, predicted, errors };
    });
    const model = chooseModel(
      tried.map(({ model: name, predicted, errors }) => ({
        model: name,
        errors: errors.flat().filter((error) => error !== null),
        nulls: predicted.length === 2 ? nullDifferences(predicted[0], predicted[1]) : null,
      })),
    );
    const { predicted, errors } = tried.find((one) => one.model === model) ?? tried[0];
    const corrections = fitFrames(model, targets, usable.map(Number));
    const residuals = errorsOf(
      targets,
      card,
      corrections.map((correction, f) =>
        targets.samples[f].samples.map((sample) => applyCorrection(correction, sample.linear)),
      ),
    );
    const index = errors
      .map((loo, f) => marredPatch(loo, residuals[f]))
      .find((found) => found !== null);
    if (index === undefined || marred === MOST_MARRED)
      return { model, patches, predicted, corrections };
    patches = {
      usable: usable.map((use, i) => use && i !== index),
      dropped: [...patches.dropped, { name: card.patches[index].name, reason: "marred" }],
    };
    requireEnoughPatches(card, patches);
  }
}

/**
 * Error of each patch in each frame: against the card's values, or, for a card nobody measured, of the second frame against the first.
 */
function errorsOf(
  { measured }: FrameTargets,
  card: Card,
  labs: readonly (readonly (Triple | null)[])[],
): readonly (readonly (number | null)[])[] {
  if (measured)
    return labs.map((frame) =>
      frame.map((lab, i) => (lab === null ? null : ciede2000(card.patches[i].lab, lab))),
    );
  const [before, after] = labs;
  return [
    before.map((lab, i) => {
      const other = after === undefined ? lab : after[i];
      return lab === null || other === null ? null : ciede2000(lab, other);
    }),
  ];
}

function droppedWarnings(
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
      code: "card-doubtful",
      message: `Patches that do not fit what the rest of the card says were left out: ${marred}. Look for dust, a scratch, a shadow or a reflection there.`,
    });
  return warnings;
}

function trustWarnings(card: Card, worst: number): Warning[] {
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

function untrusted(card: Card, worst: number): LastrinseError {
  return new LastrinseError(
    "card-untrusted",
    `Expected the colours of the card ${card.name} to follow its reference values within ${UNTRUSTED} dE00, received a mean leave-one-out error of ${worst.toFixed(1)}.`,
    {
      remedy:
        "Check that the right card was named and that it lies flat, clean and evenly lit in the frame; then take the frame again.",
    },
  );
}
