import { strengthOf } from "./strengthOf.ts";
import type { TurbidityTie } from "../../results/jarResult.ts";

/** FNU-equivalent by the user's own series; null where the series had no FNU. Never below nothing. */
export function fnuOf(tie: TurbidityTie, indexPerCm: number): number | null {
  return tie.unit === "FNU" ? Math.max(0, strengthOf(tie, indexPerCm)) : null;
}
