/** Colours of these strips: a bed is even, so its colour is narrow. */
export const BED_BANDWIDTH = 3;
/** Least colour distance from the bed up to which a cell may be bed. */
export const LEAST_TOLERANCE = 2;
