import { JAR_BACKING } from "../../../calibration/jar-backing.ts";
import type { LightTable } from "../optics/lightBox.ts";
import type { StraightBacking } from "./straightenBacking.ts";

/** A band of the backing: one wide period, or three narrow ones. */
export interface Band {
  readonly kind: "wide" | "narrow";
  readonly zone: number;
  readonly fromMm: number;
  readonly toMm: number;
}

/** Strength of the stripes over the backing: one row a band, downwards, one value a millimetre of width. */
export interface StripeMap {
  readonly bands: readonly Band[];
  /** Left end of the first millimetre. */
  readonly leftMm: number;
  /** Natural logarithm of the first harmonic's amplitude, per channel, band and millimetre; NaN where it is nil. */
  readonly logStrength: readonly (readonly Float64Array[])[];
}

const NARROW_PERIODS_A_BAND = 3;

/** All bands of the backing, downwards. */
export const BANDS: readonly Band[] = JAR_BACKING.zones.flatMap(({ kind, fromMm, toMm }, zone) => {
  const height =
    kind === "wide" ? JAR_BACKING.widePeriodMm : NARROW_PERIODS_A_BAND * JAR_BACKING.narrowPeriodMm;
  return Array.from({ length: Math.round((toMm - fromMm) / height) }, (_, i): Band => {
    return { kind, zone, fromMm: fromMm + i * height, toMm: fromMm + (i + 1) * height };
  });
});

/**
 * How strong the stripes are at each place, whatever their phase: refraction in the jar moves them, liquid and glass weaken them.
 */
export function stripeMap({ raster, pixelsPerMm }: StraightBacking, table: LightTable): StripeMap {
  const { stripesLeftMm, stripesRightMm, widePeriodMm, narrowPeriodMm } = JAR_BACKING;
  const columns = Math.floor(stripesRightMm - stripesLeftMm);
  const logStrength = BANDS.map(({ kind, fromMm, toMm }) => {
    const period = (kind === "wide" ? widePeriodMm : narrowPeriodMm) * pixelsPerMm;
    const from = Math.round(fromMm * pixelsPerMm);
    const to = Math.round(toMm * pixelsPerMm);
    const cosine = Array.from({ length: to - from }, (_, i) =>
      Math.cos((2 * Math.PI * i) / period),
    );
    const sine = Array.from({ length: to - from }, (_, i) => Math.sin((2 * Math.PI * i) / period));
    const mid = 1 / (to - from);
    // A whole number of periods need not be a whole number of rows: without their means the waves would see the plain light.
    const meanCosine = cosine.reduce((sum, value) => sum + value, 0) * mid;
    const meanSine = sine.reduce((sum, value) => sum + value, 0) * mid;
    const channels = [0, 1, 2].map(() => new Float64Array(columns));
    for (let column = 0; column < columns; column++) {
      const x0 = Math.round((stripesLeftMm + column) * pixelsPerMm);
      const x1 = Math.round((stripesLeftMm + column + 1) * pixelsPerMm);
      for (let c = 0; c < 3; c++) {
        let re = 0;
        let im = 0;
        for (let y = from; y < to; y++) {
          let sum = 0;
          const row = 3 * y * raster.width + c;
          for (let x = x0; x < x1; x++) sum += table[raster.data[row + 3 * x]];
          re += sum * (cosine[y - from] - meanCosine);
          im += sum * (sine[y - from] - meanSine);
        }
        const strength = Math.hypot(re, im) / ((to - from) * (x1 - x0));
        channels[c][column] = strength > 0 ? Math.log(strength) : NaN;
      }
    }
    return channels;
  });
  // By channel first.
  return {
    bands: BANDS,
    leftMm: stripesLeftMm,
    logStrength: [0, 1, 2].map((c) => logStrength.map((channels) => channels[c])),
  };
}
