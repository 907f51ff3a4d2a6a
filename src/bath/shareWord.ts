import type { ShareWord } from "../results/jarResult.ts";

/** Widths of the interval up to which it counts as measured, and as partly known. */
const MEASURED = 0.25;
const PARTLY_KNOWN = 0.6;

/** How much an interval of the ink share says. */
export function shareWord([low, high]: readonly [number, number]): ShareWord {
  const width = high - low;
  if (width < MEASURED) return "measured";
  return width <= PARTLY_KNOWN ? "partly known" : "not decidable";
}
