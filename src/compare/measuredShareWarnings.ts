import type { Warning } from "../errors.ts";
import { isSmallShare } from "../results/compareWords.ts";
import type { InkReport } from "../results/compareResult.ts";

/** Which figures speak for less than half of their ink. */
export function measuredShareWarnings(
  inks: readonly Pick<InkReport, "id" | "measuredShare">[],
): Warning[] {
  const small = inks.filter(isSmallShare);
  if (small.length === 0) return [];
  const listed = small
    .map(({ id, measuredShare = 0 }) => `${id} (${String(Math.round(100 * measuredShare))} %)`)
    .join(", ");
  return [
    {
      code: "small-measured-share",
      message: `The figures of ${listed} speak for less than half of the ink's area: the rest is line work or edges, where its colour is mixed with what lies beside it, could not be placed safely, or is not in both scans. Scan at 600 dpi, pressed flat, and judge the rest by eye.`,
    },
  ];
}
