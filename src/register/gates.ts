/**
 * When a registration is refused, and when it is only warned about. Good and bad pairs were apart by more than ten times in
 * simulation (every figure "good / bad" below), so simple limits do.
 */

/** Robust inliers among the matched key points: more than 1000 / 3 to 21. */
export const LEAST_INLIERS = 60;

/** Their share of the matches: 0.9 / 0.07. */
export const LEAST_INLIER_SHARE = 0.25;

/** Scale of after against before in mm. Paper changes by 2 % at most in water. */
export const LEAST_SCALE = 0.94;
export const MOST_SCALE = 1.06;

/** Tangent of the angle by which the frame's right angle closed. */
export const MOST_SHEAR = 0.01;

/** With more than this share of the matches under one affine map, no perspective is looked for: 0.9 on flatbeds. */
export const FLAT_INLIER_SHARE = 0.8;

/** A perspective is one where so many times as many matches agree with it. */
export const PERSPECTIVE_GAIN = 1.1;

/** Two photographs at slants of up to 15 degrees shorten the sheet by 7 % one way, and their scales come from a small card. */
export const MOST_SLANT_SCALE = 1.25;
export const MOST_SLANT_SHEAR = 0.12;

/** Nodes whose tile was found again, of those that hold structure in both frames: 0.9 / 0.2. */
export const LEAST_MATCHED_SHARE = 0.6;

/**
 * Median correlation of the last pass, whose structure is of 1 mm and finer: 0.78 to 0.87 on good pairs. That of bad pairs, 0, is
 * from the structure of 3 mm.
 */
export const LEAST_MEDIAN_NCC = 0.5;
export const DOUBTFUL_MEDIAN_NCC = 0.7;

/** 95th percentile of the corrections of the last pass at trusted nodes, px at 600 dpi: 0.14 to 0.5 / above 2.5. */
export const DOUBTFUL_LAST_STEP_PIXELS = 1;
export const LAST_STEP_DPI = 600;

/** A node is trusted above this trace of its information (0..2). */
export const TRUSTED = 0.8;

/** And counts as used above this. */
export const USED = 0.2;

/** The after frame shows at least this share of the sheet: with half of it missing, what is left can't speak for the cover. */
export const LEAST_SHOWN_SHARE = 0.6;

/** Fewer trusted nodes than this can't speak for a sheet. */
export const LEAST_TRUSTED_NODES = 30;
