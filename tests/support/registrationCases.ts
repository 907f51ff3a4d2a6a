import type { ArtOptions, Condition, Lie } from "./renderSheet.ts";
import type { Side } from "./registrationCase.ts";

/** A pair made by construction. */
export interface PairCase {
  readonly name: string;
  readonly before?: Partial<Side>;
  readonly lie: Lie;
  readonly condition?: Condition;
  readonly after?: Partial<Side>;
  readonly jpegQuality?: number;
  /** px at 600 dpi. */
  readonly limit: number;
  readonly onTrusted?: boolean;
}

const TYPICAL: Lie = {
  rotationDegrees: 1.7,
  scale: 1.012,
  shiftMm: [1.5, -2],
  cockleMm: 1.5,
  cockleSeed: 5,
};
const FADED: Condition = { fade: [0, 0.2, 0, 0] };

/** The cases of the table; limits of the registration stage. */
export const PAIR_CASES: readonly PairCase[] = [
  { name: "typical", lie: TYPICAL, condition: FADED, limit: 1 },
  { name: "typical, JPEG q60", lie: TYPICAL, condition: FADED, jpegQuality: 60, limit: 1 },
  {
    name: "strong",
    lie: { ...TYPICAL, rotationDegrees: -3, scale: 0.98, waveMm: [55, 55] },
    condition: FADED,
    limit: 1.5,
  },
  { name: "turned 91.5", lie: { ...TYPICAL, rotationDegrees: 91.5 }, condition: FADED, limit: 1 },
  { name: "turned 178.6", lie: { ...TYPICAL, rotationDegrees: 178.6 }, condition: FADED, limit: 1 },
  {
    name: "heavy fade, noise 4",
    lie: TYPICAL,
    condition: { fade: [0.5, 0.6, 0, 0], whitening: 8 },
    after: { noise: 4 },
    limit: 1,
  },
  {
    name: "regrain",
    lie: TYPICAL,
    condition: { ...FADED, grainSeed: 200 },
    limit: 1.5,
    onTrusted: true,
  },
  { name: "after at 200 dpi", lie: TYPICAL, condition: FADED, after: { dpi: 200 }, limit: 1 },
  { name: "after at 600 dpi", lie: TYPICAL, condition: FADED, after: { dpi: 600 }, limit: 1 },
  {
    name: "both at 150 dpi",
    before: { dpi: 150 },
    lie: TYPICAL,
    condition: FADED,
    after: { dpi: 150 },
    limit: 1,
  },
];

export const SMALL: ArtOptions = { seed: 3, widthMm: 120, heightMm: 170 };
export const COVER: ArtOptions = { seed: 3, widthMm: 395, heightMm: 265 };
