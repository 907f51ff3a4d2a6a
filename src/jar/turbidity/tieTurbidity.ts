import type { TurbidityTie } from "../../results/jarResult.ts";
import { LastrinseError } from "../../errors.ts";
import { leastSquares } from "../../numeric/leastSquares.ts";
import { strengthOf } from "./strengthOf.ts";

/** Points needed besides the blank: two numbers are fitted, and the residuals must mean something. */
export const FEWEST_TIE_POINTS = 4;

/** Uncertainty of a point: weak ones are wrong by the photo, strong ones by the dilution. */
export const POINT_CONSTANT = 0.5;
export const POINT_SHARE = 0.08;

/**
 * Ties the turbidity index to strengths the user made: a line through the origin with a quadratic term.
 * @param points Strength (FNU or relative) and index of each dilution, the blank left out.
 * @param unit What the strengths are.
 * @param file The series, for messages.
 * @throws {LastrinseError} `bad-json` with fewer than four points, `wrong-use` where the index does not rise with strength.
 */
export function tieTurbidity(
  points: readonly { readonly strength: number; readonly indexPerCm: number }[],
  unit: "FNU" | "relative",
  file?: string,
): TurbidityTie {
  if (points.length < FEWEST_TIE_POINTS)
    throw new LastrinseError(
      "bad-json",
      `Expected at least ${FEWEST_TIE_POINTS} dilutions besides the blank in a turbidity series, received ${points.length}.`,
      {
        remedy: "Photograph more dilutions of the same suspension in the same jar and light.",
        input: file,
      },
    );
  // Relative strengths may run to 1 or to 100: the constant error goes by the strongest.
  const strongest = Math.max(...points.map((point) => point.strength));
  const constant = unit === "FNU" ? POINT_CONSTANT : 0.01 * strongest;
  const weights = points.map(
    ({ strength }) => 1 / (constant + POINT_SHARE * Math.abs(strength)) ** 2,
  );
  const strengths = points.map((point) => point.strength);
  const indices = points.map((point) => point.indexPerCm);
  const largestIndex = Math.max(...indices);
  let [linear, quadratic] = leastSquares(
    indices.map((b) => [b, b * b]),
    strengths,
    weights,
  ).solution;
  if (!(linear > 0 && linear + 2 * quadratic * largestIndex > 0)) {
    // A bend that turns round inside the range is noise.
    [linear] = leastSquares(
      indices.map((b) => [b]),
      strengths,
      weights,
    ).solution;
    quadratic = 0;
  }
  if (!(linear > 0))
    throw new LastrinseError(
      "wrong-use",
      "Expected a turbidity index that rises with the strength of the dilutions, received one that does not.",
      {
        remedy:
          "Check which photo belongs to which strength, and that blank and dilutions were photographed in one set-up.",
        input: file,
      },
    );
  const tie = { unit, linear, quadratic, largestIndex };
  return {
    ...tie,
    points: points.map((point) => ({
      ...point,
      residual: strengthOf(tie, point.indexPerCm) - point.strength,
    })),
  };
}
