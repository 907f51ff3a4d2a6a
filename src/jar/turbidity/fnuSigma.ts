import { strengthOf } from "./strengthOf.ts";
import type { TurbidityTie } from "../../results/jarResult.ts";
import { POINT_CONSTANT, POINT_SHARE } from "./tieTurbidity.ts";

/**
 * Standard uncertainty of an FNU-equivalent: of the index through the slope, and what the fit missed its own points by, which grows with the
 * strength. null where the series had no FNU.
 */
export function fnuSigma(tie: TurbidityTie, indexPerCm: number, indexSigma: number): number | null {
  if (tie.unit !== "FNU") return null;
  const slope = tie.linear + 2 * tie.quadratic * indexPerCm;
  const scaled = tie.points.map(
    ({ strength, residual }) => residual / (POINT_CONSTANT + POINT_SHARE * strength),
  );
  const degrees = Math.max(1, tie.points.length - 2);
  const spread = Math.sqrt(scaled.reduce((sum, r) => sum + r * r, 0) / degrees);
  const missed = spread * (POINT_CONSTANT + POINT_SHARE * Math.max(0, strengthOf(tie, indexPerCm)));
  return Math.hypot(slope * indexSigma, missed);
}
