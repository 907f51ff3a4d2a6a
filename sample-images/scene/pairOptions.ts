import type { Point } from "../../src/numeric/point.ts";
import { COVER_HEIGHT_MM, COVER_WIDTH_MM } from "./cover.ts";
import type { Bleed, TideLine } from "./paperConditions.ts";
import type { Ink } from "./plates.ts";

/** Everything about a pair of scans; see {@link PAIR_DEFAULTS} for what is left out. */
export interface PairOptions {
  /** Which issue is printed; 1 is the one of the samples. */
  readonly coverSeed: number;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly dpiBefore: number;
  readonly dpiAfter: number;

  readonly yellowingRemoved: number;
  readonly soilRemoved: number;
  /** Share of each ink that went. */
  readonly inkLoss: Readonly<Record<Ink, number>>;
  readonly dullBlack: number;
  readonly tideLine: TideLine | null;
  readonly bleed: Bleed | null;
  readonly unevenCleaning: number;

  /** Turn of each sheet on the scanner, clockwise. */
  readonly rotationBeforeDegrees: number;
  readonly rotationAfterDegrees: number;
  /** After over before. */
  readonly scaleX: number;
  readonly scaleY: number;
  /** Shift of the after sheet from the middle of its place in the frame. */
  readonly shiftMm: Point;
  readonly cockleMm: number;
  readonly shortestWaveMm: number;

  /** What lies on the scanner the second time. */
  readonly afterShows: "same" | "mirrored" | "other" | "blank";
  /** The after sheet has another fibre and mottle than the before sheet. */
  readonly regrain: boolean;
  /** Toned edges, soil, foxing. */
  readonly worn: boolean;
  readonly grain: number;
  readonly mottle: number;

  /** Pitch of the card's patches; null leaves the card out. */
  readonly cardPitchMm: number | null;
  readonly cardAngleBeforeDegrees: number;
  readonly cardAngleAfterDegrees: number;

  /** Reflectance of the backing. */
  readonly bed: number;
  /** Gain, channel gain and exponent; see `Scanner`. */
  readonly drift: number;
  /** Of the lamp across the frame. A lamp's profile hardly changes in a day; as much as `drift` is the worst case. */
  readonly tilt: number;
  readonly black: number;
  readonly unevenness: number;
  readonly noise: number;
  readonly blur: number;
  readonly bitDepth: 8 | 16;
  /** Of scanner drift and noise, the paper's wear and the cockle. */
  readonly seed: number;
}

/** White card behind the sheet. */
export const BED_LIGHT = 0.6;
/** Open lid in a dim room. */
export const BED_DARK = 0.04;

/** A cover that washed well, but for its red. */
export const PAIR_DEFAULTS: PairOptions = {
  coverSeed: 1,
  widthMm: COVER_WIDTH_MM,
  heightMm: COVER_HEIGHT_MM,
  dpiBefore: 150,
  dpiAfter: 150,
  yellowingRemoved: 0.36,
  soilRemoved: 0.4,
  inkLoss: { yellow: 0.01, red: 0.12, blue: 0.03, black: 0 },
  dullBlack: 0,
  tideLine: null,
  bleed: null,
  unevenCleaning: 0,
  rotationBeforeDegrees: 0.4,
  rotationAfterDegrees: -1.7,
  scaleX: 1.004,
  scaleY: 1.007,
  shiftMm: [3, -2],
  cockleMm: 1.2,
  shortestWaveMm: 80,
  afterShows: "same",
  regrain: false,
  worn: true,
  grain: 0.03,
  mottle: 0.08,
  cardPitchMm: 14,
  cardAngleBeforeDegrees: 0.5,
  cardAngleAfterDegrees: -0.8,
  bed: BED_LIGHT,
  drift: 0.02,
  tilt: 0.01,
  black: 0.001,
  unevenness: 0.006,
  noise: 1.2,
  blur: 0.08,
  bitDepth: 8,
  seed: 1,
};
