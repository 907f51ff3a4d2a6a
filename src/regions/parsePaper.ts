import { LastrinseError } from "../errors.ts";
import type { KnownPaper } from "./knownPaper.ts";

/**
 * Bare paper given on the command line: `x,y,w,h` in pixels of the before scan, or a colour `L,a,b` (CIELAB D50).
 * @throws {LastrinseError} `wrong-use`.
 */
export function parsePaper(text: string): KnownPaper {
  const parts = text.split(",").map((part) => (part.trim() === "" ? NaN : Number(part)));
  if (parts.every(Number.isFinite)) {
    const [p, q, r, s] = parts;
    if (parts.length === 4 && r > 0 && s > 0) return { source: "given", boxPixels: [p, q, r, s] };
    if (parts.length === 3 && p > 0 && p <= 100 && Math.abs(q) < 128 && Math.abs(r) < 128)
      return { source: "given", lab: [p, q, r] };
  }
  throw new LastrinseError(
    "wrong-use",
    `Expected a patch of bare paper or its colour for --paper, received "${text}".`,
    {
      remedy:
        'Give the patch as "x,y,w,h" in pixels of the before scan, or its CIELAB D50 colour as "L,a,b", without spaces and with decimal points.',
      input: "--paper",
    },
  );
}
