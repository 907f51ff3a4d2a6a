import type { Triple } from "../src/numeric/triple.ts";

/**
 * The printable strip card: 2 rows of 15 patches on at most 200 x 28 mm, so that it lies beside a cover on an A4 scanner bed.
 * Three columns of greys at each end, so that uneven light shows; 9 columns of colours between them. Millimetres, x right,
 * y down from the strip's top-left corner.
 */
export const STRIP_CARD_LAYOUT = {
  edition: 1,
  widthMm: 200,
  heightMm: 28,
  rows: 2,
  columns: 15,
  pitchMm: 10,
  patchMm: 8,
  /** Centre of the first patch. */
  firstMm: [30, 8.5],
  fiducialMm: 8,
  /** The left one is the origin: it has a hole. */
  fiducialsMm: [
    [13, 13.5],
    [187, 13.5],
  ],
} as const;

/**
 * Printing aims, CIELAB D50, row-major: name, Lab. Inside the gamut of a matt inkjet print by judgement; five of them sit where
 * old paper and washed ink sit. Neighbours differ, so that a print with a blocked colour shows. Nobody measured a copy: these
 * are aims, not values.
 */
// prettier-ignore
export const STRIP_CARD_PATCHES: readonly (readonly [name: string, lab: Triple])[] = [
  ["grey 92", [92, 0, 0]],
  ["grey 65", [65, 0, 0]],
  ["grey 36", [36, 0, 0]],
  ["red", [45, 45, 25]],
  ["orange", [62, 30, 50]],
  ["green", [50, -38, 25]],
  ["blue green", [60, -32, -2]],
  ["cyan", [55, -25, -28]],
  ["blue", [35, 8, -40]],
  ["violet", [38, 25, -30]],
  ["magenta", [48, 48, -10]],
  ["yellow", [82, 0, 62]],
  ["grey 36 right", [36, 0, 0]],
  ["grey 65 right", [65, 0, 0]],
  ["grey 92 right", [92, 0, 0]],
  ["grey 80", [80, 0, 0]],
  ["grey 50", [50, 0, 0]],
  ["grey 25", [25, 0, 0]],
  ["yellow green", [70, -22, 45]],
  ["dark brown red", [40, 14, 20]],
  ["washed red", [72, 20, 5]],
  ["old paper light", [85, 2, 14]],
  ["dark green", [32, -20, 12]],
  ["washed orange", [66, 16, 18]],
  ["dark blue", [26, 6, -22]],
  ["old paper dark", [75, 5, 22]],
  ["dark brown", [32, 30, 14]],
  ["grey 25 right", [25, 0, 0]],
  ["grey 50 right", [50, 0, 0]],
  ["grey 80 right", [80, 0, 0]],
];
