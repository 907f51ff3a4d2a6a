import type { Blot, Palette } from "./palette.ts";
import type { Contradiction } from "./possibleShare.ts";
import type { ShareWord } from "../results/jarResult.ts";

/** "red", "red and blue", "red, blue and yellow". */
export function listOf(words: readonly string[]): string {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}

/** The condition under which an ink share holds: a blotter that missed a bleeding ink makes it wrong without a trace. */
export function shareCondition({ inks }: Palette): string {
  const open = inks.filter(({ boundPerCm }) => boundPerCm === null).map(({ id }) => id);
  if (open.length === 0)
    return inks.length === 0 ? "if the cover holds no ink" : "if no ink bleeds";
  if (open.length === inks.length && inks.length > 1) return "whichever of the inks bleeds";
  return open.length === 1 ? `if only ${open[0]} bleeds` : `if only ${listOf(open)} bleed`;
}

/**
 * What would make a share better known, cheapest first. null where it is measured.
 * @param blots Blotter result by ink id.
 */
export function shareRemedy(
  word: ShareWord,
  palette: Palette,
  blots: ReadonlyMap<string, Blot>,
): string | null {
  if (word === "measured") return null;
  const untested = palette.inks.map(({ id }) => id).filter((id) => blots.get(id) === "untested");
  const doubtful = palette.inks.map(({ id }) => id).filter((id) => blots.get(id) === "doubtful");
  const steps: string[] = [];
  if (blots.size === 0)
    steps.push("name the inks of the cover and test each with a blotter in this very liquid");
  if (untested.length > 0)
    steps.push(
      `test ${listOf(untested)} with a blotter in this very liquid, warm and as long as the bath`,
    );
  if (doubtful.length > 0) steps.push(`repeat the blotter test of ${listOf(doubtful)} for longer`);
  if (palette.ownSoil === null)
    steps.push(
      "photograph a bath in which a strip of unprinted paper of the same issue has soaked",
    );
  steps.push(
    "lay the drained sheet on a clean blotter and see whether colour comes off under the inks",
  );
  const sure = word === "not decidable" ? "Not decidable from this photo" : "Only partly known";
  return `${sure}: ${steps.join("; ")}.`;
}

/** What a contradiction between blotters and photo says, for the user. */
export function contradictionText({ inks, neededPerCm, sigmas }: Contradiction): string {
  if (inks.length === 0)
    return `No mix of soil and of the inks on the cover explains the colour of this bath (it misses by ${sigmas.toFixed(1)} standard deviations). Something else is in the jar, or the photo and its blank don't belong together. Take both photos again; check that every ink of the cover is listed.`;
  const amount = neededPerCm.toFixed(3);
  return inks.length === 1
    ? `The blotter of ${inks[0]} was fast, yet this bath can't be explained without at least ${amount} per cm of it. Treat ${inks[0]} as untested and test it again in this liquid.`
    : `The blotters of ${listOf(inks)} were fast, yet this bath can't be explained without at least ${amount} per cm of them together. Treat them as untested and test them again in this liquid.`;
}
