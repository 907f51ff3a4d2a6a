import {
  BATH_ERROR_PER_CM,
  NEXT_BATH_LOG_SD_MORE,
  NEXT_BATH_LOG_SD_ONE,
} from "../../calibration/priors.ts";
import { correctCarryOver } from "./correctCarryOver.ts";
import { isRising } from "./isRising.ts";
import { type BathConditions, possibleStarts } from "./likeRun.ts";
import { nextBath } from "./nextBath.ts";
import type { Range } from "./predictFade.ts";

/** One bath of a treatment: its conditions and, where its photo could be read, how much of one colourant it held. */
export interface SeriesBath extends BathConditions {
  readonly minutes: number | null;
  /** null: not stated; then neither total nor forecast can be given. */
  readonly volumeMl: number | null;
  /** Peak absorbance per cm; null where the photo could not be used. */
  readonly perCm: Range | null;
}

/** What one more bath like the last would take, if the last run of like baths is one of those it may be. */
export interface Forecast {
  readonly amount: Range;
  /** Log-sd of that amount. */
  readonly logSd: number;
}

/** One colourant over the baths of a treatment. Amounts are per cm of a bath of the reference volume. */
export interface Series {
  /** All that left the sheet, carry-over counted once; null where a bath was not read or a volume is not known. */
  readonly total: Range | null;
  /** One for each run that the stated conditions leave possible; empty where none, or not every one, can be forecast. */
  readonly forecasts: readonly Forecast[];
  /** null: it depends on a condition that nobody stated. */
  readonly rising: boolean | null;
}

/**
 * Total and forecast of one colourant.
 * @param baths In order, at least one.
 * @param wetSheetMl Liquid the wet sheet carries along.
 * @param volumeMl Reference volume: amounts are scaled to it. null: not known.
 * @param nextMinutes Length of the next bath. Default as the last.
 */
export function bathSeries(
  baths: readonly SeriesBath[],
  wetSheetMl: number,
  volumeMl: number | null,
  nextMinutes: number | null = null,
): Series {
  const volumesKnown = volumeMl !== null && baths.every((bath) => bath.volumeMl !== null);
  // Without volumes only the alarm is left: it takes the readings as they are, every bath as large as the other.
  const reference = volumesKnown ? volumeMl : 1;
  const volumes = baths.map((bath) => (volumesKnown ? (bath.volumeMl ?? reference) : reference));
  const carriedMl = volumesKnown ? wetSheetMl : 0;
  const quantile = (pick: (range: Range) => number): readonly number[] =>
    correctCarryOver(
      baths.map(({ perCm }) => (perCm === null ? 0 : pick(perCm))),
      volumes,
      carriedMl,
    ).map((amount, i) => (amount * volumes[i]) / reference);
  const low = quantile((range) => range.low);
  const mid = quantile((range) => range.mid);
  const high = quantile((range) => range.high);
  const own = baths.map((_, i) => ({
    low: Math.min(low[i], mid[i]),
    mid: mid[i],
    high: Math.max(high[i], mid[i]),
  }));
  const sum = (pick: (range: Range) => number) =>
    own.reduce((total, range) => total + pick(range), 0);
  const total =
    !volumesKnown || baths.some(({ perCm }) => perCm === null)
      ? null
      : { low: sum((r) => r.low), mid: sum((r) => r.mid), high: sum((r) => r.high) };

  const runs = possibleStarts(baths).map((start) =>
    baths
      .map((bath, i) => ({ bath, own: own[i] }))
      .slice(start)
      .filter(({ bath }) => bath.perCm !== null),
  );
  const risings = runs.map((run) => isRising(run.map((one) => one.own)));
  const rising = risings.every((one) => one === risings[0]) ? risings[0] : null;
  const forecasts = volumesKnown
    ? runs.map((run, i) => forecast(run, risings[i], nextMinutes))
    : [];
  // The worst of what may be can't be named while one of it is unknown.
  return { total, forecasts: forecasts.every((one) => one !== null) ? forecasts : [], rising };
}

type Run = readonly { readonly bath: SeriesBath; readonly own: Range }[];

/** null: no bath of the run was read, or how long its baths were, one beside the other, isn't known. */
function forecast(run: Run, rising: boolean, nextMinutes: number | null): Forecast | null {
  if (run.length === 0) return null;
  const logSd = run.length > 1 ? NEXT_BATH_LOG_SD_MORE : NEXT_BATH_LOG_SD_ONE;
  const last = run[run.length - 1].own;
  if (rising) {
    // The washout model breaks on a rising series: at least as much again.
    const before = Math.min(...run.slice(0, -1).map(({ own }) => own.mid));
    const growth = last.mid / Math.max(before, BATH_ERROR_PER_CM);
    const high = last.high * Math.max(1, growth);
    return { amount: { low: last.low, mid: last.mid, high }, logSd };
  }
  const times = relativeTimes(run, nextMinutes);
  if (times === null) return null;
  const at = (pick: (range: Range) => number) =>
    nextBath(run.map(({ own }, i) => ({ perCm: pick(own), relativeTime: times[i] })));
  // The reading's own doubt is common to all baths: what the model says of the lower and upper edges, joined with its spread there.
  const least = at((range) => range.low);
  const middle = at((range) => range.mid);
  const most = at((range) => range.high);
  const down = Math.hypot(middle.mid - least.mid, middle.mid - middle.low);
  const up = Math.hypot(most.mid - middle.mid, most.high - most.mid);
  const amount = { low: Math.max(0, middle.mid - down), mid: middle.mid, high: middle.mid + up };
  return { amount, logSd };
}

/** Minutes of each bath over those of the next. One bath alone is repeated as it was, however long; else null where one isn't stated. */
function relativeTimes(run: Run, nextMinutes: number | null): readonly number[] | null {
  if (run.length === 1 && nextMinutes === null) return [1];
  const next = nextMinutes ?? run[run.length - 1].bath.minutes;
  const times = run.map(({ bath }) => bath.minutes);
  if (next === null || times.includes(null)) return null;
  return times.map((minutes) => (minutes ?? next) / next);
}
