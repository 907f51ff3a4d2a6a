import type { Colourant, Dye } from "../../calibration/colourants.ts";
import { labToXyzD50, xyzD50ToLab } from "../colour/lab.ts";
import type { Triple } from "../numeric/triple.ts";
import type { InkClass } from "../results/advice.ts";
import { WHITE_D50 } from "../colour/whites.ts";

export interface ClassifiedInk {
  readonly inkClass: InkClass;
  /** What the ink is taken to be made of, the strongest suspect first. */
  readonly colourants: readonly Colourant[];
  /** What it may hold as well, because its hue lies near the edge of its class. Admitted only to what is possible. */
  readonly alternatives: readonly Colourant[];
  /** Hue of the ink as seen against its own paper, degrees. */
  readonly hueDegrees: number;
}

const COLOURANTS: Readonly<Record<InkClass, readonly Colourant[]>> = {
  red: ["red"],
  orange: ["red", "yellow"],
  yellow: ["yellow"],
  green: ["blue", "yellow"],
  blue: ["blue"],
  violet: ["violet"],
  pink: ["pink"],
  brown: ["red", "yellow", "carbon"],
  black: ["carbon"],
  unknown: ["red", "pink", "blue", "violet", "yellow", "carbon"],
};

/**
 * Upper edges of the hue classes, against the paper. Midway between the hues that the two-layer model gives each colourant from a pale tint
 * (density 0.1) to a heavy solid (2) on white and on brown paper: red 13 to 28, orange 41 to 68, yellow 88 to 100, green 130
 * to 175, blue 221 to 269, violet 289 to 302, pink 330 to 337.
 */
const EDGES: readonly (readonly [upTo: number, InkClass])[] = [
  [34, "red"],
  [78, "orange"],
  [115, "yellow"],
  [198, "green"],
  [279, "blue"],
  [316, "violet"],
  [355, "pink"],
  [360, "red"],
];
/** This near an edge the neighbour's colourants are possible too. */
const EDGE_DEGREES = 6;
/**
 * Chroma over darkness: a warm ink is black below the first and brown below the second; a cool one is black below the third, since grey
 * on brown paper looks bluish against it (0.13 on pale paper, 0.3 on deep brown; a blue tint has 2.6).
 */
const WARM_BLACK_RATIO = 0.25;
const BROWN_RATIO = 0.9;
const COOL_BLACK_RATIO = 0.45;
/** Fainter than this against the paper, no class can be told. */
const FAINT = 2;

/**
 * Class of an ink by its hue against the paper it stands on (old paper is yellow: a blue tint on it is grey in plain Lab).
 * @param inkLab CIELAB D50 of the ink area before washing.
 * @param paperLab CIELAB D50 of the bare paper.
 */
export function classifyInk(inkLab: Triple, paperLab: Triple): ClassifiedInk {
  const ink = labToXyzD50(inkLab);
  const paper = labToXyzD50(paperLab);
  const [L, a, b] = xyzD50ToLab([
    (WHITE_D50[0] * ink[0]) / paper[0],
    (WHITE_D50[1] * ink[1]) / paper[1],
    (WHITE_D50[2] * ink[2]) / paper[2],
  ]);
  const chroma = Math.hypot(a, b);
  const darkness = 100 - L;
  const hueDegrees = ((((Math.atan2(b, a) * 180) / Math.PI) % 360) + 360) % 360;
  const of = (inkClass: InkClass, alternatives: readonly Colourant[] = []): ClassifiedInk => ({
    inkClass,
    colourants: COLOURANTS[inkClass],
    alternatives: alternatives.filter((colourant) => !COLOURANTS[inkClass].includes(colourant)),
    hueDegrees,
  });
  if (!Number.isFinite(chroma) || Math.max(chroma, darkness) < FAINT) return of("unknown");
  const inkClass = classOfHue(hueDegrees);
  const warm = inkClass === "red" || inkClass === "orange";
  const ratio = darkness > 0 ? chroma / darkness : Infinity;
  if (ratio < (warm ? WARM_BLACK_RATIO : COOL_BLACK_RATIO)) return of("black");
  if (warm && ratio < BROWN_RATIO) return of("brown");
  const near = [-EDGE_DEGREES, EDGE_DEGREES].flatMap(
    (by) => COLOURANTS[classOfHue(hueDegrees + by)],
  );
  // A violet may be a toner of its own or a blue with a pink.
  const mixed: readonly Dye[] = inkClass === "violet" ? ["blue", "pink"] : [];
  return of(inkClass, [...new Set([...near, ...mixed])]);
}

function classOfHue(degrees: number): InkClass {
  const hue = ((degrees % 360) + 360) % 360;
  for (const [upTo, inkClass] of EDGES) if (hue < upTo) return inkClass;
  return "red";
}
