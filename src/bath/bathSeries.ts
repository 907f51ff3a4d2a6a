import {
  BATH_ERROR_PER_CM,
  NEXT_BATH_LOG_SD_MORE,
  NEXT_BATH_LOG_SD_ONE,
} from "../../calibration/priors.ts";
import { correctCarryOver } from "./correctCarryOver.ts";
import { isRising } from "./isRising.ts";
import { alike, type BathConditions, startOfLikeRun } from "./likeRun.ts";
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

/** One colourant over the baths of a treatment. Amounts are per cm of a bath of the reference volume. */
export interface Series {
  /** All that left the sheet, carry-over counted once; null where a bath's part or a volume is not known. */
  readonly total: Range | null;
  /** Forecast of one more bath like the last; null with no usable bath in the last run, or a volume not known. */
  readonly next: Range | null;
  readonly nextLogSd: number;
  readonly rising: boolean;
  /** Whether every bath was read: else `total` leans on what like baths usually do, too little to permit anything by. */
  readonly complete: boolean;
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
  const filled = fillUnread(baths);
  const quantile = (pick: (range: Range) => number): readonly number[] =>
    correctCarryOver(
      filled.map((range) => (range === null ? 0 : pick(range))),
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
    !volumesKnown || filled.includes(null)
      ? null
      : { low: sum((r) => r.low), mid: sum((r) => r.mid), high: sum((r) => r.high) };

  const start = startOfLikeRun(baths);
  const run = baths
    .map((bath, i) => ({ bath, own: own[i] }))
    .slice(start)
    .filter(({ bath }) => bath.perCm !== null);
  const rising = isRising(run.map((one) => one.own));
  return {
    total,
    next: !volumesKnown || run.length === 0 ? null : forecast(run, rising, nextMinutes),
    nextLogSd: run.length > 1 ? NEXT_BATH_LOG_SD_MORE : NEXT_BATH_LOG_SD_ONE,
    rising,
    complete: baths.every(({ perCm }) => perCm !== null),
  };
}

/**
 * A bath without a usable photo gave at most about what the one before it gave, if that was like it. Of the first, or of one in another
 * liquid, nothing can be said.
 */
function fillUnread(baths: readonly SeriesBath[]): readonly (Range | null)[] {
  const out: (Range | null)[] = [];
  baths.forEach((bath, i) => {
    const before = out.at(-1) ?? null;
    const like = i > 0 && alike(baths[i - 1], bath);
    out.push(
      bath.perCm ?? (like && before ? { low: 0, mid: before.mid, high: before.high } : null),
    );
  });
  return out;
}

function forecast(
  run: readonly { readonly bath: SeriesBath; readonly own: Range }[],
  rising: boolean,
  nextMinutes: number | null,
): Range {
  const last = run[run.length - 1].own;
  if (rising) {
    // The washout model breaks on a rising series: at least as much again.
    const before = Math.min(...run.slice(0, -1).map(({ own }) => own.mid));
    const growth = last.mid / Math.max(before, BATH_ERROR_PER_CM);
    return { low: last.low, mid: last.mid, high: last.high * Math.max(1, growth) };
  }
  const referenceMinutes = nextMinutes ?? run[run.length - 1].bath.minutes;
  const at = (pick: (range: Range) => number) =>
    nextBath(
      run.map(({ bath, own }) => ({
        perCm: pick(own),
        relativeTime:
          referenceMinutes === null || bath.minutes === null ? 1 : bath.minutes / referenceMinutes,
      })),
    );
  // The reading's own doubt is common to all baths: what the model says of the lower and upper edges, joined with its spread there.
  const least = at((range) => range.low);
  const middle = at((range) => range.mid);
  const most = at((range) => range.high);
  const down = Math.hypot(middle.mid - least.mid, middle.mid - middle.low);
  const up = Math.hypot(most.mid - middle.mid, most.high - most.mid);
  return { low: Math.max(0, middle.mid - down), mid: middle.mid, high: middle.mid + up };
}
