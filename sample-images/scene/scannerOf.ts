import type { PairOptions } from "./pairOptions.ts";
import type { Scanner } from "./scanner.ts";

/** The scanner as it is on the day of one scan of a pair. */
export function scannerOf(options: PairOptions, which: "before" | "after"): Scanner {
  const { drift, black, unevenness, noise, blur, bitDepth, seed } = options;
  return {
    drift,
    black,
    unevenness,
    noise,
    blur,
    bitDepth,
    seed: 31 * seed + (which === "before" ? 1 : 2),
  };
}
