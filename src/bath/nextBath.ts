import {
  BATH_ERROR_PER_CM,
  BATH_ERROR_RELATIVE,
  BATH_SCATTER_LOG_SD,
  FAST_REMAINDERS,
  FAST_SHARE_BETA,
  SLOW_REMAINDER_BETA,
} from "../../calibration/priors.ts";
import { linspace } from "../numeric/linspace.ts";

/** What one bath took out of the sheet, carry-over taken off. */
export interface BathAmount {
  /** Peak absorbance per cm (or any amount in proportion, errors being 13 % and 0.0008). Negative counts as 0. */
  readonly perCm: number;
  /** Minutes of this bath over those of the next one. Default 1. */
  readonly relativeTime?: number;
}

export interface NextBath {
  /** 5, 50 and 95 % of the next bath's amount, per cm. */
  readonly low: number;
  readonly mid: number;
  readonly high: number;
}

const SLOW_REMAINDERS = linspace(0.03, 0.97, 48);
const FAST_SHARES = linspace(0.02, 0.98, 25);
const AMPLITUDES = 160;
/** Amplitudes from a twentieth to twenty times the largest bath: beyond, the likelihood is nil. */
const AMPLITUDE_SPAN = 20;
/** Rows of the likelihood table between two amplitudes. */
const FINE = 8;
/** Log-likelihoods this far under a bath's best are left out: e^-20 of its weight. */
const NEGLIGIBLE = 20;
/** Bins of ln(next bath). */
const BINS = 1200;
const BIN_WIDTH = 0.01;
/** Step of ln(amplitude), in bins of its own and of the table. */
const STEP = (2 * Math.log(AMPLITUDE_SPAN)) / (AMPLITUDES - 1);
const BINS_PER_STEP = STEP / BIN_WIDTH;
const TABLE_STEP = STEP / FINE;
/** ln of the least share told apart. */
const LOWEST_LOG_SHARE = -14;
const TABLE_LENGTH = Math.ceil((-LOWEST_LOG_SHARE + 4) / TABLE_STEP) + AMPLITUDES * FINE;
const ROW_LENGTH = Math.ceil(TABLE_LENGTH / FINE);

/**
 * Amount of the next bath, by a grid posterior over the washout model
 * m_i = A (phi r_f^(i-1) + (1 - phi) r_s^(i-1)) eps_i: a fast pool and a slow one. Where minutes differ, the slow pool is scaled in
 * time: it gives up r_s^(time before) (1 - r_s^(time of the bath)) / (1 - r_s).
 * @param baths In order, like with like (same liquid, same warmth), at least one.
 * @returns The predictive 90 % range. One bath leaves it about ninefold.
 * @throws {RangeError} No bath, or an amount that is not finite.
 */
export function nextBath(baths: readonly BathAmount[]): NextBath {
  const m = baths.map(({ perCm }) => Math.max(0, perCm));
  if (m.length === 0 || !m.every(Number.isFinite))
    throw new RangeError("Expected at least one bath, each with a finite amount.");
  const largest = Math.max(...m, BATH_ERROR_PER_CM);
  const firstLogA = Math.log(largest / AMPLITUDE_SPAN);
  const firstBin = firstLogA + 2 * Math.log(AMPLITUDE_SPAN) - BINS * BIN_WIDTH;
  const likelihoods = m.map((seen) => likelihoodOf(seen, firstLogA));
  const histogram = new Float64Array(BINS);
  for (const shape of shapesOf(baths)) addShape(histogram, likelihoods, shape, firstLogA, firstBin);
  const scattered = scatter(histogram);
  return {
    low: quantileOf(scattered, 0.05, firstBin),
    mid: quantileOf(scattered, 0.5, firstBin),
    high: quantileOf(scattered, 0.95, firstBin),
  };
}

/** Likelihood of one bath against ln(predicted amount), finely tabulated: shares below 1 only move along the table. */
interface Likelihood {
  /** First and last entry that are not negligible. */
  readonly first: number;
  readonly last: number;
  /** Entry k stands at row k mod FINE, so that what neighbouring amplitudes ask for lies side by side. */
  readonly rows: Float64Array;
}

function likelihoodOf(seen: number, firstLogA: number): Likelihood {
  const tableStart = firstLogA + LOWEST_LOG_SHARE;
  const table = new Float64Array(TABLE_LENGTH);
  for (let k = 0; k < TABLE_LENGTH; k++) {
    const predicted = Math.exp(tableStart + k * TABLE_STEP);
    const sd = Math.hypot(BATH_ERROR_RELATIVE * predicted, BATH_ERROR_PER_CM);
    const z = (seen - predicted) / sd;
    table[k] = -0.5 * z * z - Math.log(sd);
  }
  const best = table.reduce((a, b) => Math.max(a, b));
  const first = table.findIndex((value) => value > best - NEGLIGIBLE);
  const last = table.findLastIndex((value) => value > best - NEGLIGIBLE);
  // Likelihoods, so that the long loop multiplies instead of taking exponentials.
  const rows = new Float64Array(FINE * ROW_LENGTH);
  for (let k = first; k <= last; k++)
    rows[(k % FINE) * ROW_LENGTH + Math.floor(k / FINE)] = Math.exp(table[k] - best);
  return { first, last, rows };
}

const weights = new Float64Array(AMPLITUDES);

/** Adds what one washout curve foretells, over all amplitudes, to the histogram. The longest loop: kept small for the compiler. */
function addShape(
  histogram: Float64Array,
  likelihoods: readonly Likelihood[],
  { prior, logShares }: Shape,
  firstLogA: number,
  firstBin: number,
): void {
  const n = likelihoods.length;
  let firstA = 0;
  let lastA = AMPLITUDES - 1;
  for (let i = 0; i < n; i++) {
    const offset = offsetOf(logShares[i]);
    firstA = Math.max(firstA, Math.ceil((likelihoods[i].first - offset) / FINE));
    lastA = Math.min(lastA, Math.floor((likelihoods[i].last - offset) / FINE));
  }
  if (firstA > lastA) return;
  weights.fill(prior, firstA, lastA + 1);
  for (let i = 0; i < n; i++) {
    const offset = offsetOf(logShares[i]);
    const start = (offset % FINE) * ROW_LENGTH + Math.floor(offset / FINE);
    multiply(weights, likelihoods[i].rows, start, firstA, lastA);
  }
  const nextStart = (firstLogA + logShares[n] - firstBin) / BIN_WIDTH;
  for (let a = firstA; a <= lastA; a++) {
    const bin = Math.floor(nextStart + a * BINS_PER_STEP);
    histogram[Math.min(BINS - 1, Math.max(0, bin))] += weights[a];
  }
}

/** Where a share begins in the table. */
function offsetOf(logShare: number): number {
  return Math.round((Math.max(logShare, LOWEST_LOG_SHARE) - LOWEST_LOG_SHARE) / TABLE_STEP);
}

/** Weights of the amplitudes from `first` to `last` times the likelihoods that stand from `start` on, in place. */
function multiply(
  weights: Float64Array,
  row: Float64Array,
  start: number,
  first: number,
  last: number,
): void {
  for (let a = first; a <= last; a++) weights[a] *= row[start + a];
}

interface Shape {
  readonly prior: number;
  /** ln of each bath's share of A, the next bath last. */
  readonly logShares: Float64Array;
}

const keptShapes = new Map<string, readonly Shape[]>();
const KEPT_SHAPES = 16;

/** Every washout curve of the grid for these times. Kept: one series is asked for soil and for each ink. */
function shapesOf(baths: readonly BathAmount[]): readonly Shape[] {
  const times = [...baths.map(({ relativeTime }) => relativeTime ?? 1), 1];
  const key = times.join(" ");
  const kept = keptShapes.get(key);
  if (kept !== undefined) return kept;
  const shapes: Shape[] = [];
  for (const rs of SLOW_REMAINDERS)
    for (const phi of FAST_SHARES) {
      const prior = beta(rs, SLOW_REMAINDER_BETA) * beta(phi, FAST_SHARE_BETA);
      for (const rf of FAST_REMAINDERS) {
        let before = 0;
        const logShares = Float64Array.from(times, (time, i) => {
          const slow = (rs ** before * (1 - rs ** time)) / (1 - rs);
          before += time;
          return Math.log(phi * rf ** i + (1 - phi) * slow);
        });
        shapes.push({ prior, logShares });
      }
    }
  if (keptShapes.size >= KEPT_SHAPES) keptShapes.clear();
  keptShapes.set(key, shapes);
  return shapes;
}

/** A Beta density, up to a constant. */
function beta(x: number, [a, b]: readonly [number, number]): number {
  return x ** (a - 1) * (1 - x) ** (b - 1);
}

/** The next bath scatters about its model like every other: the histogram of its logarithm smeared with a normal. */
function scatter(histogram: Float64Array): Float64Array {
  const reach = Math.round((4 * BATH_SCATTER_LOG_SD) / BIN_WIDTH);
  const kernel = Float64Array.from({ length: 2 * reach + 1 }, (_, k) =>
    Math.exp(-0.5 * (((k - reach) * BIN_WIDTH) / BATH_SCATTER_LOG_SD) ** 2),
  );
  const out = new Float64Array(histogram.length);
  for (let i = 0; i < histogram.length; i++) {
    if (histogram[i] === 0) continue;
    for (let k = 0; k < kernel.length; k++) {
      const to = Math.min(out.length - 1, Math.max(0, i + k - reach));
      out[to] += histogram[i] * kernel[k];
    }
  }
  return out;
}

function quantileOf(histogram: Float64Array, p: number, firstBin: number): number {
  const wanted = p * histogram.reduce((a, b) => a + b, 0);
  let sum = 0;
  let i = 0;
  while (i < histogram.length - 1 && sum + histogram[i] < wanted) sum += histogram[i++];
  const within = histogram[i] > 0 ? (wanted - sum) / histogram[i] : 0.5;
  return Math.exp(firstBin + (i + within) * BIN_WIDTH);
}
