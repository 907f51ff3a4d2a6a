import { basename } from "node:path";
import type { Warning } from "../errors.ts";
import type { ScanInfo } from "../raster/raster.ts";
import type { InkReport, PaperReport } from "../results/compareResult.ts";

/**
 * Signs that the two files were given the wrong way round: the clock in the files runs backwards, or the paper has darkened and
 * yellowed while inks have gained.
 */
export function orderWarnings(
  before: ScanInfo,
  after: ScanInfo,
  paper: PaperReport | null,
  inks: readonly InkReport[],
): Warning[] {
  const byClock =
    before.takenAt !== null && after.takenAt !== null && after.takenAt < before.takenAt;
  const darker = paper?.verdict === "darker" && (paper.deltaB ?? 0) > 0;
  const changed = inks.filter((ink) => (ink.deltaE00 ?? 0) > (ink.floorDeltaE00 ?? Infinity));
  const darkened = changed.filter((ink) => (ink.deltaL ?? 0) < 0);
  const byColour = darker && 2 * darkened.length >= changed.length;
  if (!byClock && !byColour) return [];
  const sign = byClock
    ? `${basename(after.file)} was taken before ${basename(before.file)}`
    : "the paper came out darker and yellower, as if it had been washed backwards";
  return [
    {
      code: "order-swapped",
      message: `The scans may be the wrong way round: ${sign}. Check which file is the before scan.`,
    },
  ];
}
