import type { InkVerdict, PaperVerdict } from "../results/compareResult.ts";
import type { PaperAndInk } from "./splitPaperAndInk.ts";

/** Above this floor nothing useful can be said of an area. */
export const UNCERTAIN_FLOOR = 2;

/** What may be said of an ink. */
export function inkVerdict(deltaE00: number, floor: number, parts: PaperAndInk | null): InkVerdict {
  if (!(floor <= UNCERTAIN_FLOOR)) return "uncertain";
  if (parts !== null && parts.low > 0 && parts.inkPart > floor && parts.towardsPaper)
    return "ink-lost";
  return deltaE00 > floor ? "changed" : "no-change-shown";
}

export interface PaperShift {
  readonly deltaL: number;
  readonly deltaB: number;
  /** Half-width of the 95 % interval of each. */
  readonly floorL: number;
  readonly floorB: number;
}

/** What may be said of the paper: lightness first, yellowness where lightness says nothing. */
export function paperVerdict(
  { deltaL, deltaB, floorL, floorB }: PaperShift,
  floor: number,
): PaperVerdict {
  if (!(floor <= UNCERTAIN_FLOOR)) return "uncertain";
  if (Math.abs(deltaL) > floorL) return deltaL > 0 ? "lighter" : "darker";
  if (Math.abs(deltaB) > floorB) return deltaB < 0 ? "lighter" : "darker";
  return "no-change-shown";
}
