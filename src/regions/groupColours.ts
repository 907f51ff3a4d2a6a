import type { Triple } from "../numeric/triple.ts";
import { type InkGroup, PAPER_ID } from "./applyCorrections.ts";
import type { ModeStatistics } from "./modeStatistics.ts";
import { nameInks } from "./nameInks.ts";
import type { NamedPaper } from "./namePaper.ts";

/**
 * The paper and the named inks among the colours of a sheet, inks largest first.
 * @param colours As segmented: the k-th has the label k + 1. Those without cells (all of whose pieces were folded away) are left
 * out.
 * @param estimate What the paper may look like where none was found: names are given relative to it.
 */
export function groupColours(
  colours: readonly ModeStatistics[],
  paper: NamedPaper | null,
  estimate: Triple | null = null,
): InkGroup[] {
  const paperColours = paper === null ? [] : [paper.main, ...paper.others];
  const printed = colours
    .map((_, k) => k)
    .filter((k) => colours[k].cells > 0 && !paperColours.includes(k))
    .sort((p, q) => colours[q].cells - colours[p].cells || p - q);
  const names = nameInks(
    printed.map((k) => colours[k].lab),
    paper === null ? estimate : colours[paper.main].lab,
  );
  const inks = printed.map((k, n): InkGroup => ({
    ...names[n],
    lab: colours[k].lab,
    members: [k + 1],
  }));
  if (paper === null) return inks;
  const { lab } = colours[paper.main];
  return [{ id: PAPER_ID, kind: "ink", lab, members: paperColours.map((k) => k + 1) }, ...inks];
}

/** Name and kind of a colour that the user set apart, beside the inks that were found. Without members. */
export function groupOfSeed(lab: Triple, found: readonly InkGroup[]): Omit<InkGroup, "members"> {
  const inks = found.filter((group) => group.id !== PAPER_ID).map((group) => group.lab);
  const paper = found.find((group) => group.id === PAPER_ID)?.lab ?? null;
  return { ...nameInks([...inks, lab], paper)[inks.length], lab };
}
