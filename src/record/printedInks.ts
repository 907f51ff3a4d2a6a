import type { SurveyedInk } from "../compare/surveyScan.ts";
import type { Triple } from "../numeric/triple.ts";

/** An ink as it was printed: tints and overprints counted to it, by the solid area they stand for. */
export interface PrintedInk {
  readonly id: string;
  readonly lab: Triple;
  /** Solid-equivalent area over all scanned sides. */
  readonly areaCm2: number;
  readonly kind: "ink" | "overprint" | "black";
}

/** What mixed colours are printed from (three- and four-colour printing; common practice, no source). */
const PARTS_OF: Readonly<Record<string, readonly string[]>> = {
  orange: ["red", "yellow"],
  green: ["yellow", "blue"],
  violet: ["red", "blue"],
  brown: ["red", "yellow", "blue"],
  grey: ["black"],
};

/** "light-red" and "red-2" are red. */
function baseWord(id: string): string {
  return id.replace(/^light-/, "").replace(/-\d+$/, "");
}

/** The word of the ink or inks that a colour of the cover is printed with, as far as those are on the cover. */
export function partsOf(
  { id, kind }: Pick<SurveyedInk, "id" | "kind">,
  words: ReadonlySet<string>,
): readonly string[] {
  const word = baseWord(id);
  if (kind !== "overprint" && id === word) return [id];
  const parts = (PARTS_OF[word] ?? [word]).filter((part) => words.has(part));
  if (kind === "overprint" && parts.length > 0) return parts;
  return words.has(word) ? [word] : [id];
}

/** Optical density over the paper by lightness: how much of a solid a tint is. Solids count whole. */
function density(lab: Triple, paper: Triple): number {
  const luminance = (L: number): number => ((L + 16) / 116) ** 3;
  const chroma = Math.hypot(lab[1] - paper[1], lab[2] - paper[2]);
  // A yellow hardly darkens: its chroma shows how much of it there is.
  return Math.max(Math.log10(luminance(paper[0]) / luminance(lab[0])), chroma / 200);
}

/**
 * The inks of a cover from the colours found on it: tints and overprints are counted to the inks they are made of.
 * @param colours Colours of all scanned sides.
 * @param paper CIELAB D50 of the bare paper.
 */
export function printedInks(colours: readonly SurveyedInk[], paper: Triple): PrintedInk[] {
  const solids = colours.filter(
    (colour) =>
      colour.lab !== null && colour.kind !== "overprint" && colour.id === baseWord(colour.id),
  );
  const words = new Set(solids.map(({ id }) => id));
  const inks = new Map<string, { lab: Triple; areaCm2: number; kind: PrintedInk["kind"] }>();
  for (const { id, lab, kind } of solids)
    if (lab !== null && !inks.has(id)) inks.set(id, { lab, areaCm2: 0, kind });
  for (const colour of colours) {
    if (colour.lab === null) continue;
    for (const part of partsOf(colour, words)) {
      const ink = inks.get(part);
      if (ink === undefined) {
        inks.set(part, { lab: colour.lab, areaCm2: colour.areaCm2, kind: colour.kind });
        continue;
      }
      const tint = colour.kind !== "overprint" && part !== colour.id;
      const share = tint ? Math.min(1, density(colour.lab, paper) / density(ink.lab, paper)) : 1;
      ink.areaCm2 += share * colour.areaCm2;
    }
  }
  return [...inks].map(([id, { lab, areaCm2, kind }]) => ({ id, lab, areaCm2, kind }));
}
