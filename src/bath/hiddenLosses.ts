import type { Triple } from "../numeric/triple.ts";
import { classifyInk } from "./classifyInk.ts";

export interface HiddenLoss {
  readonly ink: string;
  readonly text: string;
}

/** A blue darker than this may hold iron blue; peacock-type blues on paper are lighter. */
const DARK_BLUE_L = 45;
/** Chrome yellow is a strong, opaque yellow; tartrazine-type lakes and tints are weaker. */
const STRONG_YELLOW_B = 45;

/**
 * Inks whose loss a bath may not show: their colour changes where it stands. Told from hue and strength only, so it says "may".
 * @param inks Id and CIELAB D50 before washing.
 */
export function hiddenLosses(
  inks: readonly { readonly id: string; readonly lab: Triple }[],
  paperLab: Triple,
): readonly HiddenLoss[] {
  return inks.flatMap(({ id, lab }) => {
    const { inkClass } = classifyInk(lab, paperLab);
    const text = textOf(id, inkClass, lab);
    return text === null ? [] : [{ ink: id, text }];
  });
}

function textOf(id: string, inkClass: string, [L, , b]: Triple): string | null {
  if (inkClass === "violet" || (inkClass === "blue" && L >= DARK_BLUE_L))
    return `${id} may be a basic-dye toner: alkali takes its colour away, and the bath can't show this loss.`;
  if (inkClass === "blue" || inkClass === "green")
    return `${id} may hold iron blue: alkali destroys it in place, and the bath can't show this loss.`;
  if ((inkClass === "yellow" || inkClass === "orange") && b > STRONG_YELLOW_B)
    return `${id} may be chrome yellow: alkali turns it orange in place, and the bath can't show this loss. Its waste is collected.`;
  return null;
}
