import type { Triple } from "../numeric/triple.ts";

type Hue = "red" | "orange" | "yellow" | "green" | "blue" | "violet";
export type ColourWord =
  Hue | "brown" | "pink" | `light-${Hue | "brown"}` | "black" | "grey" | "light-grey";

/** Below these chromas a colour has no name but its lightness: the lighter it is, the less chroma shows. */
const LIGHT_NEUTRAL_CHROMA = 8;
const NEUTRAL_CHROMA = 11;
const DARK_NEUTRAL_CHROMA = 12;
/** A full black on browned newsprint is no darker than this. */
const BLACK_L = 48;
const LIGHT_GREY_L = 82;

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

/** A dull red that is not light is brown. */
const DULL_RED_CHROMA = 20;
/** A light red on the blue side of this hue is pink. */
const PINK_HUE_DEGREES = 30;
/** From this lightness on a colour is a tint. */
const LIGHT_L = 78;
/** Orange and yellow are light by nature: tints of them are told by their chroma. */
const LIGHT_ORANGE_CHROMA = 40;
const LIGHT_YELLOW_CHROMA = 32;
/** A dark orange is brown, and a dull one, too. */
const BROWN_L = 48;
const BROWN_CHROMA = 25;
/** What is neither light nor strong is no yellow: olive green beyond this hue, brown before. */
const YELLOW_L = 80;
const YELLOW_CHROMA = 48;
const DARK_YELLOW_L = 60;
const OLIVE_HUE_DEGREES = 92;

/**
 * The plain word for a printed colour.
 * @param relativeLab Media-relative CIELAB, see `relativeToPaper`; CIELAB D50 where the paper is not known.
 * @see Hue limits: common usage for printed colours, no source; checked against the newsprint aims of ISO 12647-3.
 */
export function colourWord(relativeLab: Triple): ColourWord {
  const [L, a, b] = relativeLab;
  const chroma = Math.hypot(a, b);
  if (L < BLACK_L && chroma < DARK_NEUTRAL_CHROMA) return "black";
  if (L < LIGHT_GREY_L && chroma < NEUTRAL_CHROMA) return "grey";
  if (chroma < LIGHT_NEUTRAL_CHROMA) return "light-grey";

  const angle = (Math.atan2(b, a) * 180) / Math.PI;
  const hue = angle < 0 ? angle + 360 : angle;
  const word = HUES.find(([limit]) => hue < limit)?.[1] ?? "red";
  switch (word) {
    case "red":
      if (L < LIGHT_L) return chroma < DULL_RED_CHROMA ? "brown" : "red";
      return hue >= PINK_HUE_DEGREES && hue < 180 ? "light-red" : "pink";
    case "orange":
      if (L < BROWN_L) return "brown";
      if (chroma < BROWN_CHROMA) return L < LIGHT_L ? "brown" : "light-brown";
      return L < LIGHT_L || chroma >= LIGHT_ORANGE_CHROMA ? "orange" : "light-orange";
    case "yellow":
      if (L < DARK_YELLOW_L || (L < YELLOW_L && chroma < YELLOW_CHROMA))
        return hue < OLIVE_HUE_DEGREES ? "brown" : "green";
      return chroma < LIGHT_YELLOW_CHROMA ? "light-yellow" : "yellow";
    case "green":
    case "blue":
    case "violet":
      return L < LIGHT_L ? word : `light-${word}`;
  }
}
