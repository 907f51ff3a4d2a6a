import type { Triple } from "../numeric/triple.ts";
import { colourWord } from "./colourWord.ts";
import { markOverprints } from "./markOverprints.ts";
import type { InkKind } from "./regionMap.ts";
import { relativeToPaper } from "./relativeToPaper.ts";

export interface NamedInk {
  readonly id: string;
  readonly kind: InkKind;
}

/** From this difference of lightness on two colours of one word are called dark and light rather than numbered. */
const TELLING_LIGHTNESS = 10;

/**
 * Gives the colours of a print plain names and says how each was made.
 * The largest colour of a word keeps the plain word; a clearly darker or lighter one becomes "dark-red" or "light-red", any
 * other "red-2", "red-3".
 * @param colours CIELAB D50, largest area first.
 * @param paper CIELAB D50 of the bare paper, to which colours are seen relative; null where there is none.
 * @returns In the order of `colours`; ids are unique.
 */
export function nameInks(colours: readonly Triple[], paper: Triple | null): NamedInk[] {
  const relative = colours.map((lab) => relativeToPaper(lab, paper));
  const words = relative.map(colourWord);
  const overprint = markOverprints(
    colours.map((lab, k) => ({ lab, word: words[k] })),
    paper,
  );
  const ids: string[] = [];
  // Plain words first, so that no variant of a larger colour takes the plain word of a smaller one ("light-blue").
  words.forEach((word, k) => {
    if (words.indexOf(word) === k) ids[k] = word;
  });
  words.forEach((word, k) => {
    if (ids[k] !== undefined) return;
    const lighter = relative[k][0] - relative[words.indexOf(word)][0];
    const shade = lighter > 0 ? `light-${word}` : `dark-${word}`;
    const telling =
      Math.abs(lighter) >= TELLING_LIGHTNESS &&
      !word.startsWith("light-") &&
      word !== "black" &&
      !ids.includes(shade);
    ids[k] = telling ? shade : numbered(word, ids);
  });
  return words.map((word, k) => ({
    id: ids[k],
    kind: word === "black" ? "black" : overprint[k] ? "overprint" : "ink",
  }));
}

/** The first of "red-2", "red-3", ... that is free. */
function numbered(word: string, taken: readonly string[]): string {
  for (let n = 2; ; n++) if (!taken.includes(`${word}-${n}`)) return `${word}-${n}`;
}
