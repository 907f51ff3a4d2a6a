import type { Triple } from "../colour/triple.ts";

type Hue = "red" | "orange" | "yellow" | "green" | "blue" | "violet";
export type ColourWord =
  Hue | "brown" | "pink" | `light-${Hue | "brown"}` | "black" | "grey" | "light-grey";

/** Below this chroma a colour has no name but its lightness; dark colours look colourless up to a higher one. */
const NEUTRAL_CHROMA = 8;
const DARK_NEUTRAL_CHROMA = 14;
const BLACK_L = 38;
const DARK_L = 32;
const LIGHT_GREY_L = 78;

/** Upper hue angle of each word, degrees; beyond the last it starts again with red. */
const HUES: readonly (readonly [number, Hue])[] = [
  [42, "red"],
  [71, "orange"],
  [109, "yellow"],
  [197, "green"],
  [291, "blue"],
  [330, "violet"],
  [360, "red"],
];

/** Orange and yellow hues that are dark, or dull, are called brown. */
const BROWN_L = 48;
const BROWN_CHROMA = 25;
const BROWN_DULL_L = 72;
/** A light red on the blue side of this hue is pink. */
const PINK_HUE_DEGREES = 30;
/** From this lightness on a colour is a tint; yellow and orange are light by nature and go by chroma. */
const LIGHT_L = 72;
const LIGHT_ORANGE_L = 80;
const LIGHT_CHROMA = 32;

/**
 * The plain word for a printed colour.
 * @param relativeLab Media-relative CIELAB, see `relativeToPaper`; CIELAB D50 where the paper is not known.
 * @see Hue limits: common usage for printed colours, no source; checked against the newsprint aims of ISO 12647-3.
 */
export function colourWord(relativeLab: Triple): ColourWord {
  const [L, a, b] = relativeLab;
  const chroma = Math.hypot(a, b);
  if (chroma < NEUTRAL_CHROMA || (L < DARK_L && chroma < DARK_NEUTRAL_CHROMA))
    return L < BLACK_L ? "black" : L < LIGHT_GREY_L ? "grey" : "light-grey";

  const angle = (Math.atan2(b, a) * 180) / Math.PI;
  const hue = angle < 0 ? angle + 360 : angle;
  const word = HUES.find(([limit]) => hue < limit)?.[1] ?? "red";
  switch (word) {
    case "red":
      if (L < LIGHT_L) return "red";
      return hue >= PINK_HUE_DEGREES && hue < 180 ? "light-red" : "pink";
    case "orange":
    case "yellow":
      if (L < BROWN_L || (chroma < BROWN_CHROMA && L < BROWN_DULL_L)) return "brown";
      if (word === "yellow") return chroma < LIGHT_CHROMA ? "light-yellow" : "yellow";
      if (L < LIGHT_ORANGE_L) return "orange";
      return chroma < BROWN_CHROMA ? "light-brown" : "light-orange";
    case "green":
    case "blue":
    case "violet":
      return L < LIGHT_L ? word : `light-${word}`;
  }
}
