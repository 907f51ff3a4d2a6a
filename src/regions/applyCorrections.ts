import type { Triple } from "../numeric/triple.ts";
import { LastrinseError } from "../errors.ts";
import type { InkCorrections } from "./inkCorrections.ts";
import type { InkKind } from "./regionMap.ts";

/** Colours that are one ink, or the paper. */
export interface InkGroup {
  readonly id: string;
  readonly kind: InkKind;
  /** CIELAB D50 of its first colour. */
  readonly lab: Triple;
  /** Labels of the segmentation that belong to it. */
  readonly members: readonly number[];
}

/** The paper's name among the groups; null members of the result: no paper. */
export const PAPER_ID = "paper";

/**
 * Replays the user's renames, merges and kinds, in their order, on the groups that were found. Splits only claim their
 * name here: their group comes in through `splits`. Exclusions are not this function's.
 * @param groups What was found; the paper, if any, has the id "paper".
 * @param splits The group of each split, in the order of the splits among the steps.
 * @throws {LastrinseError} `wrong-use`: a step names an ink that does not exist at that point, or a name that is taken.
 */
export function applyCorrections(
  groups: readonly InkGroup[],
  corrections: InkCorrections,
  splits: readonly InkGroup[],
): InkGroup[] {
  let current = [...groups];
  const waiting = [...splits];
  corrections.steps.forEach((step, n) => {
    const where = `corrections[${n}] of ${corrections.file}`;
    const refuse = (message: string, remedy: string): never => {
      throw new LastrinseError("wrong-use", message, { remedy, input: corrections.file });
    };
    const find = (id: string): InkGroup =>
      current.find((group) => group.id === id) ??
      refuse(
        `Expected the name of an ink that was found, in ${where}, received "${id}".`,
        `Use one of: ${current.map((group) => group.id).join(", ")}. Steps are replayed in order: after a rename only the new name counts.`,
      );
    const claim = (id: string, leaving: readonly InkGroup[]): void => {
      if (id === PAPER_ID)
        refuse(
          `Expected a name for an ink, in ${where}, received "paper", which is kept for bare paper.`,
          `To count an area as paper, merge it with "paper".`,
        );
      if (current.some((group) => group.id === id && !leaving.includes(group)))
        refuse(
          `Expected a new name, in ${where}, received "${id}", which another ink already has.`,
          "Choose another name, or merge the two inks.",
        );
    };
    switch (step.action) {
      case "rename": {
        const ink = find(step.ink);
        if (ink.id === PAPER_ID)
          refuse(
            `Expected an ink to rename, in ${where}, received "paper".`,
            "The paper keeps its name; leave this step out.",
          );
        claim(step.to, [ink]);
        current = current.map((group) => (group === ink ? { ...ink, id: step.to } : group));
        break;
      }
      case "merge": {
        const parts = [...new Set(step.inks)].map(find);
        const paper = parts.find((part) => part.id === PAPER_ID);
        const first = paper ?? parts[0];
        const id = paper === undefined ? (step.as ?? first.id) : PAPER_ID;
        if (paper === undefined) claim(id, parts);
        else if (step.as !== undefined)
          refuse(
            `Expected no "as" in a merge with the paper, in ${where}, received "${step.as}".`,
            `Leave "as" out: what is merged with the paper is paper.`,
          );
        const merged = { ...first, id, members: parts.flatMap((part) => part.members) };
        current = current.filter((group) => group === first || !parts.includes(group));
        current = current.map((group) => (group === first ? merged : group));
        break;
      }
      case "kind": {
        const ink = find(step.ink);
        if (ink.id === PAPER_ID)
          refuse(
            `Expected an ink whose kind to set, in ${where}, received "paper".`,
            "Name an ink; the paper has no kind.",
          );
        current = current.map((group) => (group === ink ? { ...ink, kind: step.kind } : group));
        break;
      }
      case "split": {
        claim(step.as, []);
        const split = waiting.shift();
        if (split !== undefined) current.push({ ...split, id: step.as });
        break;
      }
      case "exclude":
        break;
    }
  });
  return current;
}
