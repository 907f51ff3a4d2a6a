import type { FinishedInk } from "./benchFactor.ts";
import type { Range } from "./predictFade.ts";

export interface PredictedInk extends Range {
  readonly id: string;
  readonly inkClass: string;
  readonly modelDeltaE00: number;
}

/** What the dry scan after washing shows of an ink: the part left for loss of ink, paper whitening taken out. */
export interface MeasuredInk {
  readonly id: string;
  readonly inkPartDeltaE00: number | null;
  /** Smallest change that may be claimed there. */
  readonly floorDeltaE00: number | null;
}

export interface ComparedInk {
  readonly id: string;
  readonly predicted: Range | null;
  readonly measuredDeltaE00: number | null;
  /**
   * Whether the measured loss lies in the predicted 90 % range; under the floor it is only known to be at most that, so the range has to
   * reach below the floor. null: one of the two is missing.
   */
  readonly inside: boolean | null;
}

export interface PredictionCheck {
  readonly inks: readonly ComparedInk[];
  /** Share of inks inside, of those that could be compared; null where there are none. */
  readonly coverage: number | null;
  /** What this treatment teaches the bench factor; `benchFactor` leaves out what is too faint. */
  readonly finished: readonly FinishedInk[];
}

/**
 * The prediction made at the tray beside what the dry scan shows.
 * @param day ISO 8601 date of the washing: covers of one day teach as one treatment.
 */
export function comparePrediction(
  predicted: readonly PredictedInk[],
  measured: readonly MeasuredInk[],
  day: string,
): PredictionCheck {
  const ids = [...new Set([...predicted, ...measured].map(({ id }) => id))];
  const pairs = ids.map((id) => ({
    id,
    prediction: predicted.find((ink) => ink.id === id) ?? null,
    seen: measured.find((ink) => ink.id === id) ?? null,
  }));
  const inks = pairs.map(({ id, prediction, seen }): ComparedInk => {
    const loss = seen?.inkPartDeltaE00 ?? null;
    const floor = seen?.floorDeltaE00 ?? 0;
    const range = prediction && { low: prediction.low, mid: prediction.mid, high: prediction.high };
    const inside =
      range === null || loss === null
        ? null
        : loss < floor
          ? range.low <= floor
          : loss >= range.low && loss <= range.high;
    return { id, predicted: range, measuredDeltaE00: loss, inside };
  });
  const judged = inks.flatMap(({ inside }) => inside ?? []);
  return {
    inks,
    coverage: judged.length === 0 ? null : judged.filter(Boolean).length / judged.length,
    finished: pairs.flatMap(({ prediction, seen }) =>
      prediction === null || seen === null || seen.inkPartDeltaE00 === null
        ? []
        : [
            {
              day,
              inkClass: prediction.inkClass,
              modelDeltaE00: prediction.modelDeltaE00,
              measuredDeltaE00: seen.inkPartDeltaE00,
              noiseDeltaE00: seen.floorDeltaE00 ?? Infinity,
            },
          ],
    ),
  };
}
