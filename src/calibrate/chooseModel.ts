import { mean, standardDeviation } from "../numeric/statistics.ts";
import type { ModelName } from "./correction.ts";
import { MODEL_NAMES } from "./correction.ts";

/** Quietest between two frames and about the best on photos: it stands unless the patches speak against it. */
export const DEFAULT_MODEL: ModelName = "gam+3x3";

/** Mean leave-one-out error (dE00) up to which colours are not even called approximate (the best models reach 3.8 on real photos; by judgement). */
const GOOD_ENOUGH = 3;

/** What leaving patches out says of one model. */
export interface ModelEvidence {
  readonly model: ModelName;
  /** Leave-one-out errors against the card's values: all usable patches of all frames. */
  readonly errors: readonly number[];
  /** For a pair: apparent change of each usable patch between the frames, left out of both; null for a single frame. */
  readonly nulls: readonly number[] | null;
}

/**
 * The automatic choice, by the one-standard-error rule: a model is as good as the best when its mean is at most the best mean plus the
 * standard error of that best mean. Among equals the default is taken, else the model with the fewest numbers.
 *
 * A single frame is judged by its leave-one-out errors. A pair exists for the sake of differences: there every model counts whose colours
 * are as good as the best or at least not approximate (mean error up to 3), and the apparent change of unchanged patches decides.
 * By the errors alone a pair of scans would get a plain 3x3: errors of the reference values (about 0.8) are most of them, favour few
 * numbers and hide a drift of tone, which a 3x3 then leaves in every difference. In the simulation of tests/calibrate a scanner at 2 %
 * drift shows regions that did not change as 0.20 (95 % below 0.49) with 3x3 and as 0.08 (0.18) with the default.
 * @param evidence One entry a model, at least one; the order does not matter.
 */
export function chooseModel(evidence: readonly ModelEvidence[]): ModelName {
  const inOrder = MODEL_NAMES.flatMap((name) => evidence.filter(({ model }) => model === name));
  const exact = admitted(inOrder, ({ errors }) => errors, 0);
  if (inOrder.some(({ nulls }) => nulls === null)) return preferred(exact);
  const usable = admitted(inOrder, ({ errors }) => errors, GOOD_ENOUGH);
  return preferred(admitted(usable, ({ nulls }) => nulls ?? [], 0));
}

function admitted(
  candidates: readonly ModelEvidence[],
  figuresOf: (candidate: ModelEvidence) => readonly number[],
  enough: number,
): readonly ModelEvidence[] {
  const means = candidates.map((candidate) => mean(figuresOf(candidate)));
  const best = means.indexOf(Math.min(...means));
  const figures = figuresOf(candidates[best]);
  const limit = means[best] + standardDeviation(figures) / Math.sqrt(figures.length);
  return candidates.filter((_, i) => means[i] <= Math.max(limit, enough));
}

function preferred(candidates: readonly ModelEvidence[]): ModelName {
  return (candidates.find(({ model }) => model === DEFAULT_MODEL) ?? candidates[0]).model;
}
