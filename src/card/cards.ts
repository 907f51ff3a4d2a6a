import { CHART24_1976_XYY_C } from "../../calibration/chart24-1976.ts";
import {
  CHART24_FIRST_NEUTRAL,
  CHART24_PATCH_NAMES,
} from "../../calibration/chart24-patch-names.ts";
import { CHART24_POST2014_LAB } from "../../calibration/chart24-post2014.ts";
import { CHART24_PRE2014_LAB } from "../../calibration/chart24-pre2014.ts";
import { adaptationMatrix } from "../colour/adapt.ts";
import { xyzD50ToLab } from "../colour/lab.ts";
import type { Triple } from "../numeric/triple.ts";
import { WHITE_C, WHITE_D50 } from "../colour/whites.ts";
import { multiply3Vector } from "../numeric/matrix3.ts";
import type { Card } from "./card.ts";
import { STRIP_CARD } from "./stripCard.ts";

/** The card that is meant when none is named: the edition on sale for the last decade. */
export const DEFAULT_CARD_NAME = "chart24-post2014";

function chart24(name: string, title: string, source: string, lab: readonly Triple[]): Card {
  return {
    name,
    title,
    rows: 4,
    columns: 6,
    patches: CHART24_PATCH_NAMES.map((patch, i) => ({
      name: patch,
      lab: lab[i],
      neutral: i >= CHART24_FIRST_NEUTRAL,
    })),
    pitchMm: null,
    measured: true,
    source,
  };
}

/** CIELAB D50 of the 1976 edition: published under illuminant C, taken to D50 by linear Bradford. */
function chart24Lab1976(): Triple[] {
  const toD50 = adaptationMatrix(WHITE_C, WHITE_D50);
  return CHART24_1976_XYY_C.map(([x, y, Y]) =>
    xyzD50ToLab(multiply3Vector(toD50, [(x / y) * Y, Y, ((1 - x - y) / y) * Y])),
  );
}

/** The built-in cards, by the name used on the command line. The edition is the user's to state: it is on the card's back. */
export const CARDS: readonly Card[] = [
  chart24(
    "chart24-post2014",
    "24-patch chart made from November 2014 on",
    "maker's values, CIELAB D50",
    CHART24_POST2014_LAB,
  ),
  chart24(
    "chart24-pre2014",
    "24-patch chart made before November 2014",
    "maker's values, CIELAB D50",
    CHART24_PRE2014_LAB,
  ),
  chart24(
    "chart24-1976",
    "24-patch chart, values published in 1976",
    "McCamy, Marcus & Davidson 1976, xyY under illuminant C, taken to D50 by linear Bradford",
    chart24Lab1976(),
  ),
  STRIP_CARD,
];

/** The built-in card of that name, or undefined. */
export function cardNamed(name: string): Card | undefined {
  return CARDS.find((card) => card.name === name);
}
