import type { LabelPictureOptions } from "./labelPicture.ts";

/** A cover of four plates: solids, two overprints, a tint, a line and a speck, with bare margins. */
export const LABELLED_COVER: LabelPictureOptions = {
  paper: [84, 2.2, 15],
  bed: [96, 0, -1],
  inks: {
    red: [47, 54, 28],
    yellow: [78, 1, 62],
    blue: [42, -8, -32],
    black: [24, 1, 3],
    orange: [62, 32, 47],
    green: [43, -22, 14],
    pink: [68, 24, 18],
  },
  patches: [
    { ink: "yellow", box: [8, 8, 114, 40] },
    { ink: "red", box: [14, 14, 30, 26] },
    { ink: "red", box: [60, 12, 30, 30], round: true },
    { ink: "black", box: [96, 16, 3, 24] },
    { ink: "black", box: [104, 16, 12, 12] },
    { ink: "blue", box: [8, 52, 70, 60] },
    { ink: "green", box: [20, 70, 40, 30], round: true },
    { ink: "orange", box: [82, 52, 40, 40] },
    { ink: "pink", box: [82, 92, 40, 40] },
    { ink: "red", box: [92, 100, 20, 24], round: true },
    { ink: "black", box: [10, 120, 60, 10] },
    { ink: "yellow", box: [14, 123, 2.5, 2.5] },
  ],
};

/** The speck of yellow in the black bar, in mm: under 10 mm2. */
export const SPECK = [15.25, 124.25] as const;
