import type { Point } from "../numeric/point.ts";
import type { Triple } from "../numeric/triple.ts";

export interface CardPatch {
  readonly name: string;
  /** CIELAB D50, 2 degree. */
  readonly lab: Triple;
  /** One of the card's greys, black and white included. */
  readonly neutral: boolean;
}

/** A colour card: a lattice of patches with reference values. */
export interface Card {
  /** The name used on the command line, or the path of the reference file. */
  readonly name: string;
  readonly title: string;
  readonly rows: number;
  readonly columns: number;
  /** Row-major, rows * columns of them: first of row 1 first. */
  readonly patches: readonly CardPatch[];
  /** Distance between neighbouring patch centres; null where cards of several sizes share the layout. */
  readonly pitchMm: number | null;
  /** false: the values are printing aims, nobody measured this copy; it then serves differences only. */
  readonly measured: boolean;
  /** Where the values come from. */
  readonly source: string;
  /** What was assumed or repaired while a reference file was read; absent for built-in cards. */
  readonly notes?: readonly string[];
}

/** A card found in a frame, or placed by hand. */
export interface PlacedCard {
  /** Centres of the corner patches: first of row 1, last of row 1, last of the last row, first of the last row. */
  readonly corners: readonly [Point, Point, Point, Point];
  /** Row-major centres of all patches. */
  readonly centres: readonly Point[];
  /** Mean Lab residual of an affine colour fit of the patches to their reference. */
  readonly matchResidual: number;
}

/** What a frame shows of one patch, before any calibration. */
export interface PatchSample {
  readonly name: string;
  /** Robust mean of the code values decoded by the inverse sRGB curve, R G B, 0..1, over the inner 44 % of the pitch. */
  readonly linear: Triple;
  /** Standard deviation over those pixels, per channel, same unit. */
  readonly deviation: Triple;
  /** Share of pixels with a channel at 252/255 of full scale or above. */
  readonly clippedHigh: number;
  /** Share of pixels with a channel at 2/255 of full scale or below. */
  readonly clippedLow: number;
  readonly pixels: number;
}
