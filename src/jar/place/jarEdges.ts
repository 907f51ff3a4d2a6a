import { median, quantile } from "../../numeric/statistics.ts";
import type { StripeMap } from "./stripeMap.ts";

/** The jar's outer edges on the backing, and the bands it stands before. */
export interface JarEdges {
  readonly leftMm: number;
  readonly rightMm: number;
  readonly bands: readonly boolean[];
}

/** A step of the stripes' log strength over three millimetres: glass and air alone make about 0.09, uneven light less than 0.01. */
const LEAST_STEP = 0.022;
const LEAST_STEP_DEVIATIONS = 7;
const REACH_MM = 2;

/** Steps this near the ends of the stripes are the ends themselves. */
const ENDS_MM = 4;

/** Edges of single bands scatter: a jar may taper, a meniscus may bend. */
const BAND_TOLERANCE_MM = 6;

const NARROWEST_JAR_MM = 18;
const FEWEST_BANDS = 2;

/**
 * Where a jar stands before the backing: outermost sharp steps in the strength of the wide stripes, band by band.
 * @returns null where no two bands agree on two edges.
 */
export function jarEdges({ bands, leftMm, logStrength }: StripeMap): JarEdges | null {
  const edges = bands.map((band, i) =>
    band.kind === "wide" ? outermostSteps(logStrength[1][i]) : null,
  );
  const found = edges.filter((edge) => edge !== null);
  if (found.length < FEWEST_BANDS) return null;
  const left = median(found.map((edge) => edge[0]));
  const right = median(found.map((edge) => edge[1]));
  const agrees = edges.map(
    (edge) =>
      edge !== null &&
      Math.abs(edge[0] - left) <= BAND_TOLERANCE_MM &&
      Math.abs(edge[1] - right) <= BAND_TOLERANCE_MM,
  );
  if (agrees.filter(Boolean).length < FEWEST_BANDS || right - left < NARROWEST_JAR_MM) return null;
  const agreed = edges.filter((_, i) => agrees[i]) as [number, number][];
  return {
    // The outermost of the bands that agree: the walls' darkness must stay outside whatever is read.
    leftMm: leftMm + quantile(agreed.map((edge) => edge[0]), 0.1), // prettier-ignore
    rightMm: leftMm + quantile(agreed.map((edge) => edge[1]), 0.9), // prettier-ignore
    bands: agrees,
  };
}

/** Millimetres from the left end of the outermost sharp steps; null where there are not two of them well apart. */
function outermostSteps(profile: Float64Array): [number, number] | null {
  const steps = new Float64Array(profile.length).fill(0);
  for (let i = REACH_MM; i < profile.length - REACH_MM; i++)
    steps[i] = Math.abs(profile[i + 1] - profile[i - REACH_MM]) || 0;
  const inner = steps.subarray(ENDS_MM, profile.length - ENDS_MM);
  const limit = Math.max(LEAST_STEP, LEAST_STEP_DEVIATIONS * median(inner));
  const first = inner.findIndex((step) => step > limit);
  if (first < 0) return null;
  const last = inner.findLastIndex((step) => step > limit);
  // A step over i-2 .. i+1 begins before the edge and ends after it.
  const left = first + ENDS_MM + 1;
  const right = last + ENDS_MM - 1;
  return right - left >= NARROWEST_JAR_MM ? [left, right] : null;
}
