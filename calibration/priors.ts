/**
 * What is assumed before this bench has shown anything. Judgement where no source is named, wide on purpose; the simulations in
 * tests/study draw from the same figures.
 */

/** Washout model: what is left of the slow pool after one bath ~ Beta, share of the fast pool ~ Beta (by judgement). */
export const SLOW_REMAINDER_BETA = [3, 2] as const;
export const FAST_SHARE_BETA = [1.2, 1.2] as const;
/** What is left of the fast pool after one bath: equally likely values (free solutes cross wet paper in well under a minute). */
export const FAST_REMAINDERS = [0, 0.05, 0.1, 0.15] as const;
/** Scatter of one bath about the model, log-sd (temperature, agitation, minutes by feel). */
export const BATH_SCATTER_LOG_SD = 0.12;
/** Error of one bath's amount: 13 % (12 % scatter and 5 % reading in quadrature) and 0.0008 per cm. */
export const BATH_ERROR_RELATIVE = 0.13;
export const BATH_ERROR_PER_CM = 0.0008;

/** An ink whose amount grows by more than this factor from one bath to the next, like with like, is bleeding. */
export const RISING_FACTOR = 1.25;

/** Log-sd of the next bath in the risk rule after one bath seen, and after two or more. */
export const NEXT_BATH_LOG_SD_ONE = 0.65;
export const NEXT_BATH_LOG_SD_MORE = 0.42;

/** Bench factor: ln(measured / predicted fade) over benches, within one bench, and from the scan. */
export const BENCH_LOG_SD = 0.6;
export const WITHIN_BENCH_LOG_SD = 0.2;
export const SCAN_LOG_SD = 0.13;
/** Regions that teach nothing: predicted fade below this, or scan noise above this share of the measured change. */
export const LEAST_TAUGHT_DELTA_E00 = 0.3;
export const LARGEST_SCAN_NOISE_SHARE = 0.5;

/** Standard normal quantile of a two-sided 90 % range. */
export const Z90 = 1.6449;

/** Limits of the decision where the user sets none. */
export const DEFAULT_LIMITS = { maxDeltaE00: 2, risk: 0.1, minGain: 0.1 } as const;

/** Liquid held by a wet cover where the user gives none, mL (about 8 g of paper at 2 mL/g; common practice, no source). */
export const WET_SHEET_ML = 16;

/**
 * Peak absorbance of the strongest stain on a blotter that is still graded fast (4-5), and how strongly a blotter shows what an ink
 * gives up, as absorbance of the spot over transmission density lost. Nobody has measured the second: by judgement one to one,
 * so that a fast blotter bounds a loss by what it could have hidden and by no more.
 */
export const FAST_SPOT_ABSORBANCE = 0.055;
export const BLOTTER_TRANSFER = 1;
