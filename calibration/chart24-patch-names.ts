/**
 * The patches of the 24-patch colour rendition chart, row-major, 4 rows of 6, dark skin first and black last when the printed
 * caption reads upright. Descriptive names of McCamy, Marcus & Davidson, J. Appl. Photogr. Eng. 2(3), 95-99 (1976).
 */
export const CHART24_PATCH_NAMES = [
  "dark skin",
  "light skin",
  "blue sky",
  "foliage",
  "blue flower",
  "bluish green",
  "orange",
  "purplish blue",
  "moderate red",
  "purple",
  "yellow green",
  "orange yellow",
  "blue",
  "green",
  "red",
  "yellow",
  "magenta",
  "cyan",
  "white 9.5",
  "neutral 8",
  "neutral 6.5",
  "neutral 5",
  "neutral 3.5",
  "black 2",
] as const;

/** Row 4, white to black, is the grey scale. */
export const CHART24_FIRST_NEUTRAL = 18;
