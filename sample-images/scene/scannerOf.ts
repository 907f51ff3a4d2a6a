import type { PairOptions } from "./pairOptions.ts";
import type { Scanner } from "./scanner.ts";

/** The scanner as it is on the day of one scan of a pair. */
export function scannerOf(options: PairOptions, which: "before" | "after"): Scanner {
  const { drift, tilt, black, unevenness, noise, blur, bitDepth, seed } = options;
  return {
    drift,
    tilt,
    black,
    unevenness,
    noise,
    blur,
    bitDepth,
    scannerSeed: 31 * seed,
    seed: 31 * seed + (which === "before" ? 1 : 2),
  };
}
