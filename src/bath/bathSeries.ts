import {
  BATH_ERROR_PER_CM,
  NEXT_BATH_LOG_SD_MORE,
  NEXT_BATH_LOG_SD_ONE,
} from "../../calibration/priors.ts";
import { correctCarryOver } from "./correctCarryOver.ts";
import { isRising } from "./isRising.ts";
import { type BathConditions, startOfLikeRun } from "./likeRun.ts";
import { nextBath } from "./nextBath.ts";
import type { Range } from "./predictFade.ts";

/** One bath of a treatment: its conditions and, where its photo could be read, how much of one colourant it held. */
export interface SeriesBath extends BathConditions {
  readonly minutes: number | null;
  readonly volumeMl: number;
  /** Peak absorbance per cm; null where the photo could not be used. */
  readonly perCm: Range | null;
  /** Whether `perCm` is a likely range rather than mere bounds. */
  readonly likely: boolean;
}

/** One colourant over the baths of a treatment. Amounts are per cm of a bath of the reference volume. */
export interface Series {
  /** All that left the sheet, carry-over counted once; null where the first bath was not read. */
  readonly total: Range | null;
  /** Forecast of one more bath like the last; null with no usable bath in the last run. */
  readonly next: Range | null;
  readonly nextLogSd: number;
  readonly rising: boolean;
}

/**
 * Total and forecast of one colourant.
 * @param baths In order, at least one.
 * @param wetSheetMl Liquid the wet sheet carries along.
 * @param volumeMl Reference volume: amounts are scaled to it.
 * @param nextMinutes Length of the next bath. Default as the last.
 */
export function bathSeries(
  baths: readonly SeriesBath[],
  wetSheetMl: number,
  volumeMl: number,
  nextMinutes: number | null = null,
): Series {
  const filled = fillUnread(baths.map(({ perCm }) => perCm));
  const volumes = baths.map((bath) => bath.volumeMl);
  const quantile = (pick: (range: Range) => number): readonly number[] =>
    correctCarryOver(
      filled.map((range) => (range === null ? 0 : pick(range))),
      volumes,
      wetSheetMl,
    ).map((amount, i) => (amount * volumes[i]) / volumeMl);
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
    filled.at(0) === null
      ? null
      : { low: sum((r) => r.low), mid: sum((r) => r.mid), high: sum((r) => r.high) };

  const start = startOfLikeRun(baths);
  const run = baths
    .map((bath, i) => ({ bath, own: own[i] }))
    .slice(start)
    .filter(({ bath }) => bath.perCm !== null);
  const rising = isRunRising(
    run.map(({ bath, own: amount }) => ({ ...amount, likely: bath.likely })),
  );
  return {
    total,
    next: run.length === 0 ? null : forecast(run, rising, nextMinutes),
    nextLogSd: run.length > 1 ? NEXT_BATH_LOG_SD_MORE : NEXT_BATH_LOG_SD_ONE,
    rising,
  };
}

/** A bath without a usable photo gave at most about what the one before it gave; before the first nothing can be said. */
function fillUnread(amounts: readonly (Range | null)[]): readonly (Range | null)[] {
  const out: (Range | null)[] = [];
  for (const amount of amounts) {
    const before = out.at(-1) ?? null;
    out.push(amount ?? (before && { low: 0, mid: before.mid, high: before.high }));
  }
  return out;
}

/** With likely ranges by their middles; with mere bounds only where the rise is certain. */
function isRunRising(run: readonly (Range & { readonly likely: boolean })[]): boolean {
  const [before, last] = run.slice(-2);
  if (last === undefined) return false;
  return before.likely && last.likely
    ? isRising([before.mid, last.mid])
    : isRising([before.high, last.low]);
}

function forecast(
  run: readonly { readonly bath: SeriesBath; readonly own: Range }[],
  rising: boolean,
  nextMinutes: number | null,
): Range {
  const last = run[run.length - 1].own;
  if (rising) {
    // The washout model breaks on a rising series: at least as much again.
    const growth = last.mid / Math.max(run[run.length - 2].own.mid, BATH_ERROR_PER_CM);
    return { low: last.mid, mid: last.mid, high: last.high * Math.max(1, growth) };
  }
  const reference = nextMinutes ?? run[run.length - 1].bath.minutes;
  const { low, mid, high } = nextBath(
    run.map(({ bath, own }) => ({
      perCm: own.mid,
      relativeTime: reference === null || bath.minutes === null ? 1 : bath.minutes / reference,
    })),
  );
  // The doubt of the reading itself is common to all baths: it widens the forecast in proportion, in quadrature.
  const relative = (edge: number) => (last.mid > 0 ? Math.abs(edge / last.mid - 1) : 0);
  const down = Math.hypot(mid - low, mid * relative(last.low));
  const up = Math.hypot(high - mid, mid * relative(last.high));
  const floor = last.mid > 0 ? 0 : last.high - last.mid;
  return { low: Math.max(0, mid - down), mid, high: mid + Math.max(up, floor) };
}
