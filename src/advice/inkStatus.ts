import { listOf } from "../bath/shareText.ts";
import { coversLiquid } from "./coversLiquid.ts";
import type { InkState, Liquid } from "./treatmentState.ts";

export interface InkStatus {
  readonly state: "bleeding" | "doubtful" | "fast" | "untested";
  /** Why it counts as bleeding or untested, in words. */
  readonly why: string;
  /** For bleeding: whether only the blotter said so. */
  readonly byBlotterOnly: boolean;
}

/**
 * What a liquid may be expected to do to an ink, from its tests and from what was seen. Newest first: a bleeding test holds until a later one
 * was fast that covers the bath in question; a fast or doubtful one counts only if its liquid was as strong; what was seen at
 * the tray holds until the ink has tested fast in that liquid since. A newest test that gave no result leaves it open whether the ink still
 * holds: what an older one permitted is permitted no longer.
 * @param liquid The bath in question; null: the liquid of the tests themselves.
 */
export function inkStatus(
  ink: Pick<InkState, "tests" | "bleeding" | "contradicted">,
  liquid: Liquid | null,
): InkStatus {
  const told = toldBy(ink, liquid);
  const newest = [...ink.tests].sort((a, b) => b.order - a.order).at(0);
  if (newest?.result !== "untested" || told.state === "bleeding") return told;
  const why =
    newest.takenBack === true
      ? "its last blotter test was withdrawn and had not been fast"
      : "its last blotter test gave no result";
  return { state: "untested", why, byBlotterOnly: false };
}

/** The same from the tests that gave a result. */
function toldBy(
  ink: Pick<InkState, "tests" | "bleeding" | "contradicted">,
  liquid: Liquid | null,
): InkStatus {
  const reports = [...ink.bleeding].sort((a, b) => b.order - a.order);
  const tests = [...ink.tests]
    .filter(({ result }) => result !== "untested")
    .sort((a, b) => b.order - a.order);
  const lastReport = reports.at(0);
  let weaker: string | null = null;
  for (const { result, liquid: tested, order } of tests) {
    if (lastReport !== undefined && order <= lastReport.order) break;
    if (result === "bleeds")
      return { state: "bleeding", why: "its blotter test bled", byBlotterOnly: true };
    const short =
      tested === null ? null : liquid === null ? unstated(tested) : coversLiquid(tested, liquid);
    if (short !== null) {
      weaker ??= short;
      continue;
    }
    // A doubtful blotter does not lift a bleed that was seen.
    if (result === "doubtful" && lastReport !== undefined) break;
    if (ink.contradicted)
      return {
        state: "untested",
        why: "its blotter was fast, but the jar can't be explained without it",
        byBlotterOnly: false,
      };
    return { state: result, why: "", byBlotterOnly: false };
  }
  if (lastReport !== undefined)
    return { state: "bleeding", why: HOW[lastReport.how], byBlotterOnly: false };
  return {
    state: "untested",
    why: weaker ?? "it has no blotter test",
    byBlotterOnly: false,
  };
}

/** Before the first bath the test itself says how strong that may be: it has to state it. null where it does. */
function unstated({ surfactant, ph, temperatureC, minutes }: Liquid): string | null {
  const missing = [
    ...(surfactant === null ? ["whether its liquid held surfactant"] : []),
    ...(ph === null ? ["its pH"] : []),
    ...(temperatureC === null ? ["its temperature"] : []),
    ...(minutes === null ? ["its time"] : []),
  ];
  return missing.length === 0
    ? null
    : `its test doesn't state ${listOf(missing)}, so it can't be said which bath it permits`;
}

const HOW = {
  seen: "it was seen to bleed",
  offset: "it came off on the support",
  rising: "each bath holds more of it than the one before",
} as const;
