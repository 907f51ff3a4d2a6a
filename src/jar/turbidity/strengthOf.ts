import type { TurbidityTie } from "../../results/jarResult.ts";

/** Strength that the tie gives an index, in its unit. */
export function strengthOf(
  { linear, quadratic }: Pick<TurbidityTie, "linear" | "quadratic">,
  indexPerCm: number,
): number {
  return linear * indexPerCm + quadratic * indexPerCm * indexPerCm;
}
