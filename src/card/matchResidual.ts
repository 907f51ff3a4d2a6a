import { encodeSrgb } from "../colour/srgb.ts";
import type { Triple } from "../numeric/triple.ts";
import { solveCholesky } from "../numeric/cholesky.ts";
import type { Card } from "./card.ts";

/** Up to here the colours are those of the card. True charts in real photos score 5 to 17, linear unbalanced ones 18.5 to 20. */
export const MATCH_ACCEPTED = 18;

/** Up to here the card is taken with a warning, above it is refused. Other layouts and part-covered cards score 27 and more. */
export const MATCH_DOUBTFUL = 24;

/** Fewer patches than this say nothing about a fit of four numbers a channel. */
const FEWEST_PATCHES = 8;

/**
 * Mean Lab distance between reference values and the best affine map of code values onto them: small when the colours seen
 * at these places are those of the card in this order, whatever the exposure, the white balance and the mix of primaries.
 * @param code R G B code values 0..1 (still sRGB-encoded) of one patch after another, row-major, interleaved.
 * @param lab Reference L* a* b* of the same patches, interleaved.
 * @returns Residual in Lab units; NaN where a value is missing; Infinity where the colours seen span no space (all alike).
 */
export function affineLabResidual(code: ArrayLike<number>, lab: ArrayLike<number>): number {
  const n = code.length / 3;
  const A = new Float64Array(16);
  const rhs = [new Float64Array(4), new Float64Array(4), new Float64Array(4)];
  const row = new Float64Array(4);
  for (let i = 0; i < n; i++) {
    for (let c = 0; c < 3; c++) row[c] = code[3 * i + c];
    row[3] = 1;
    for (let j = 0; j < 4; j++) {
      for (let k = 0; k <= j; k++) A[4 * j + k] += row[j] * row[k];
      for (let c = 0; c < 3; c++) rhs[c][j] += row[j] * lab[3 * i + c];
    }
  }
  // A little ridge (a thousandth of a code step's square a patch) keeps grey pictures solvable; it moves nothing else.
  for (let j = 0; j < 3; j++) A[5 * j] += n * RIDGE;
  for (const b of rhs) if (!solveCholesky(A.slice(), b)) return Number.isNaN(A[0]) ? NaN : Infinity;
  let total = 0;
  for (let i = 0; i < n; i++) {
    let squared = 0;
    for (let c = 0; c < 3; c++) {
      const m = rhs[c];
      const predicted = m[0] * code[3 * i] + m[1] * code[3 * i + 1] + m[2] * code[3 * i + 2] + m[3];
      squared += (predicted - lab[3 * i + c]) ** 2;
    }
    total += Math.sqrt(squared);
  }
  return total / n;
}

const RIDGE = 1e-3 / 255 ** 2;

/** Mean distance of the 24-patch charts' values from their centroid, in Lab: the thresholds above belong to it. */
const CHART24_SPREAD = 41;

/**
 * Reference values to match colours against, interleaved. A card of duller colours is stretched to the spread of the 24-patch
 * chart, or wrong places and part-covered cards would score below the thresholds measured on that chart.
 */
export function labsToMatch(card: Card): Float64Array {
  const labs = Float64Array.from(card.patches.flatMap((patch) => patch.lab));
  const n = card.patches.length;
  const centroid = [0, 0, 0];
  for (let i = 0; i < labs.length; i++) centroid[i % 3] += labs[i] / n;
  let spread = 0;
  for (const { lab } of card.patches)
    spread += Math.hypot(lab[0] - centroid[0], lab[1] - centroid[1], lab[2] - centroid[2]) / n;
  const stretch = spread > 0 ? Math.max(1, CHART24_SPREAD / spread) : 1;
  return labs.map((value) => value * stretch);
}

/**
 * How well colours seen at the patches of a card match it: see {@link affineLabResidual}. In Lab units of the 24-patch chart.
 * @param linear Linear R G B 0..1 of each patch, row-major.
 * @throws {RangeError} Not one colour a patch, or fewer patches than say anything.
 */
export function matchResidual(linear: readonly Triple[], card: Card): number {
  if (linear.length !== card.patches.length || linear.length < FEWEST_PATCHES)
    throw new RangeError(
      `Expected one colour for each of the ${card.patches.length} patches (${FEWEST_PATCHES} or more), received ${linear.length}.`,
    );
  return affineLabResidual(
    linear.flatMap((rgb) => rgb.map(encodeSrgb)),
    labsToMatch(card),
  );
}
