/**
 * Colourants a bath of an old printed cover can hold, as shapes, and the three bands in which a jar photo is read.
 *
 * Where the figures come from. No absorption spectra of the period's inks in limewater are published. What is known of each is its peak (dye
 * literature) and how it answers in the three mixed-back camera bands: a table computed from twelve pairs of measured camera
 * sensitivities and lights (responses of lithol-like red, pink, blue, violet, yellow, soil and carbon, their variance inside
 * the band, and the angles between them). Bands and shapes below were fitted together by least squares to that table
 * (`tests/study/fitColourants.script.ts`) and meet its 21 responses within 0.01; `tests/bath/colourants.test.ts` holds them to it.
 */

/** 400 to 700 nm by 10: the 31 bands of every spectral sum in the bath models. */
export const BAND_FIRST_NM = 400;
export const BAND_STEP_NM = 10;
export const BAND_COUNT = 31;

/** A bell with two widths: normal curve of standard deviation `left` below the centre and `right` above. */
export interface Bell {
  readonly centreNm: number;
  readonly leftNm: number;
  readonly rightNm: number;
  readonly height: number;
}

/**
 * From linear sRGB of a photo (divided by the white beside the jar) back to broad, overlapping bands: mean inverse colour matrix of the
 * twelve camera and light pairs. Rows r, g, b; each sums to 1. In linear sRGB itself a red dye would read as negative absorbance.
 */
// prettier-ignore
export const SOFT = [
  0.58, 0.34, 0.08,
  0.14, 0.71, 0.15,
  0.03, 0.29, 0.68,
] as const;

/** Spectral weights of the bands r, g, b, each a sum of bells (scaled to sum 1 over the 31 bands by the user of this table). */
export const SOFT_BANDS: readonly (readonly Bell[])[] = [
  [
    { centreNm: 607.5, leftNm: 36.3, rightNm: 36.3, height: 1 },
    { centreNm: 445, leftNm: 25, rightNm: 25, height: 0.065 },
  ],
  [
    { centreNm: 537.6, leftNm: 41.9, rightNm: 42, height: 1 },
    { centreNm: 610, leftNm: 30, rightNm: 30, height: 0.088 },
    { centreNm: 450, leftNm: 30, rightNm: 30, height: 0.027 },
  ],
  [
    { centreNm: 460.7, leftNm: 24.6, rightNm: 28.5, height: 1 },
    { centreNm: 540, leftNm: 35, rightNm: 35, height: 0.159 },
  ],
];

export type Dye = "red" | "pink" | "blue" | "violet" | "yellow";
export type Colourant = Dye | "carbon" | "silt";

/** Dyes: a main bell and a shoulder (yellow's of 1 % is left out); the peak of their sum stands at `peakNm` and counts as 1. */
export const DYES: Readonly<
  Record<Dye, { readonly peakNm: number; readonly bells: readonly Bell[] }>
> = {
  /** Lithol-like red lakes. */
  red: {
    peakNm: 508,
    bells: [
      { centreNm: 510.74, leftNm: 45.08, rightNm: 35.03, height: 1 },
      { centreNm: 461.97, leftNm: 28.28, rightNm: 28.28, height: 0.086 },
    ],
  },
  /** Eosin and phloxine lakes, rhodamine-like pinks. */
  pink: {
    peakNm: 553,
    bells: [
      { centreNm: 555.88, leftNm: 34.57, rightNm: 12.92, height: 1 },
      { centreNm: 526.91, leftNm: 13.37, rightNm: 13.37, height: 0.11 },
    ],
  },
  /** Triarylmethane acid dyes of the peacock type. */
  blue: {
    peakNm: 630,
    bells: [
      { centreNm: 632.57, leftNm: 38.44, rightNm: 25.21, height: 1 },
      { centreNm: 568.68, leftNm: 46.04, rightNm: 46.04, height: 0.148 },
    ],
  },
  /** Basic-dye toners of the crystal violet type. */
  violet: {
    peakNm: 586,
    bells: [
      { centreNm: 587.31, leftNm: 33.09, rightNm: 26.18, height: 1 },
      { centreNm: 532.42, leftNm: 18.12, rightNm: 18.12, height: 0.583 },
    ],
  },
  /** Tartrazine-like yellow lakes. */
  yellow: {
    peakNm: 428,
    bells: [{ centreNm: 428, leftNm: 36, rightNm: 34.2, height: 1 }],
  },
};

/** Particles: absorptivity (550 nm / wavelength)^exponent. Carbon from the same table; silt as brown clays, from memory. */
export const PARTICLES: Readonly<Record<"carbon" | "silt", { readonly exponent: number }>> = {
  carbon: { exponent: 0.758 },
  silt: { exponent: 2 },
};

/**
 * Brown soluble matter of old paper: exp(-slope (wavelength - 446 nm)). Slopes: Loiselle et al. 2009 and reviews of coloured dissolved
 * organic matter give 0.010 to 0.020 per nm; lignin-like matter in the visible sits low (from memory 0.011 to 0.018).
 */
export const SOIL_REFERENCE_NM = 446.2;
export const SOIL_SLOPE_PER_NM = 0.014;
export const SOIL_SLOPE_SD_PER_NM = 0.002;
export const SOIL_SLOPE_RANGE_PER_NM = [0.009, 0.019] as const;

/** How far a dye's peak in the bath may lie from the library's, nm (salt form, pH, maker). */
export const DYE_SHIFT_NM = 6;

/**
 * Camera-to-camera spread of the bands (sd): centre and breadth. Together they give the 2 to 5 % of a column (relative to its length) that
 * the twelve pairs show.
 */
export const CAMERA_CENTRE_SD_NM = 3.2;
export const CAMERA_BREADTH_SD = 0.055;
/** The share of a reading's relative error that is this spread. */
export const CAMERA_SPREAD = 0.03;
