import type { Card } from "../card/card.ts";
import { ciede2000 } from "../colour/ciede2000.ts";
import type { Triple } from "../numeric/triple.ts";
import { applyCorrection } from "./applyCorrection.ts";
import { chooseModel, DEFAULT_MODEL } from "./chooseModel.ts";
import type { Correction, ModelName } from "./correction.ts";
import { MODEL_NAMES } from "./correction.ts";
import type { FrameTargets } from "./fitFrames.ts";
import { fitFrames } from "./fitFrames.ts";
import { leaveOneOutFrames } from "./leaveOneOutFrames.ts";
import { marredPatch, OUTLIER_DEVIATIONS } from "./marredPatch.ts";
import type { UsablePatches } from "./usablePatches.ts";
import { requireEnoughPatches } from "./usablePatches.ts";

/** A card with more marred patches than this is not marred: the models do not reach it, and dropping patches would hide that. */
const MOST_MARRED = 2;

/**
 * A patch that changed between the frames stands out from the apparent changes of the others. They have longer tails than errors against
 * the card (flare and gradients strike unlike patches unequally), and dropping an honest one would lower the floor: hence twice the
 * deviations, and a change that matters on any scanner (dE00).
 */
const CHANGED_DEVIATIONS = 2 * OUTLIER_DEVIATIONS;
const CHANGED_LEAST = 1;

/** The model and the patches to use, with what leaving patches out showed of them. */
export interface Selection {
  readonly model: ModelName;
  readonly patches: UsablePatches;
  readonly predicted: readonly (readonly (Triple | null)[])[];
  readonly corrections: readonly Correction[];
}

/**
 * Chooses the model; where a patch is marred drops the worst one and chooses again, at most twice.
 * @param unspoilt Patches that are neither burnt out nor too dark.
 * @throws {LastrinseError} card-untrusted: too few patches are left.
 */
export function selectModel(targets: FrameTargets, card: Card, unspoilt: UsablePatches): Selection {
  // Without reference values nothing ranks the models; the default maps one frame onto the other.
  const models = card.measured ? MODEL_NAMES : [DEFAULT_MODEL];
  let patches = unspoilt;
  for (let marred = 0; ; marred++) {
    const { usable } = patches;
    const tried = models.map((model) => {
      const predicted = leaveOneOutFrames(model, targets, usable);
      return { model, predicted, errors: predicted.map((labs) => againstCard(card, labs)) };
    });
    const model = chooseModel(
      tried.map(({ model: name, predicted, errors }) => ({
        model: name,
        errors: errors.flat().filter((error) => error !== null),
        nulls:
          predicted.length === 2
            ? betweenFrames(predicted).filter((difference) => difference !== null)
            : null,
      })),
    );
    const { predicted, errors } = tried.find((one) => one.model === model) ?? tried[0];
    const corrections = fitFrames(model, targets, usable.map(Number));
    const fitted = corrections.map((correction, f) =>
      targets.samples[f].samples.map((sample) => applyCorrection(correction, sample.linear)),
    );
    const outliers = [
      ...(card.measured
        ? errors.map((loo, f) => marredPatch(loo, againstCard(card, fitted[f])))
        : []),
      ...(predicted.length === 2
        ? [
            marredPatch(
              betweenFrames(predicted),
              betweenFrames(fitted),
              CHANGED_DEVIATIONS,
              CHANGED_LEAST,
            ),
          ]
        : []),
    ];
    const index = outliers.find((found) => found !== null);
    if (index === undefined || marred === MOST_MARRED)
      return { model, patches, predicted, corrections };
    patches = {
      usable: usable.map((use, i) => use && i !== index),
      dropped: [...patches.dropped, { name: card.patches[index].name, reason: "marred" }],
    };
    requireEnoughPatches(card, patches);
  }
}

/** dE00 of each patch against the card's value. */
function againstCard(card: Card, labs: readonly (Triple | null)[]): readonly (number | null)[] {
  return labs.map((lab, i) => (lab === null ? null : ciede2000(card.patches[i].lab, lab)));
}

/** dE00 of each patch between the two frames. */
function betweenFrames([before, after]: readonly (readonly (Triple | null)[])[]): readonly (
  number | null
)[] {
  return before.map((first, i) => {
    const second = after[i];
    return first === null || second === null ? null : ciede2000(first, second);
  });
}
