import type { Card, PatchSample } from "../card/card.ts";
import { ciede2000 } from "../colour/ciede2000.ts";
import type { Triple } from "../numeric/triple.ts";
import { mean, quantile } from "../numeric/statistics.ts";
import type { ModelName } from "./correction.ts";
import { frameTargets } from "./fitFrames.ts";
import { leaveOneOutFrames } from "./leaveOneOutFrames.ts";

/** CIEDE2000 between reference and prediction, each patch predicted by a fit that never saw it. */
export interface LeaveOneOut {
  /** In the order of the card; null for patches that are not usable. */
  readonly errors: readonly (number | null)[];
  readonly mean: number;
  /** 95th percentile, definition R-7. */
  readonly p95: number;
  readonly max: number;
}

/**
 * Leave-one-out error of a correction model on one frame: what counts, since the training error ranks the worst predictors first.
 * @param usable Which patches may be used; at least five.
 */
export function leaveOneOut(
  model: ModelName,
  samples: readonly PatchSample[],
  card: Card,
  usable: readonly boolean[],
): LeaveOneOut {
  const frames = frameTargets([{ samples }], { ...card, measured: true });
  const [predicted] = leaveOneOutFrames(model, frames, usable);
  return leaveOneOutSummary(
    card.patches.map((patch) => patch.lab),
    predicted,
  );
}

/** Errors of predictions that were made already; null where nothing was predicted. */
export function leaveOneOutSummary(
  labs: readonly Triple[],
  predicted: readonly (Triple | null)[],
): LeaveOneOut {
  const errors = predicted.map((lab, i) => (lab === null ? null : ciede2000(labs[i], lab)));
  const known = errors.filter((error) => error !== null);
  return { errors, mean: mean(known), p95: quantile(known, 0.95), max: Math.max(...known) };
}
