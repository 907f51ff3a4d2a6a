import type { JarPhoto } from "../../src/jar/optics/linearPhoto.ts";
import { stripedMap } from "../../sample-images/jar/backingMap.ts";
import type { Camera, Light } from "../../sample-images/jar/camera.ts";
import { type Exposure, throughJpeg } from "../../sample-images/jar/exposed.ts";
import type { Liquid } from "../../sample-images/jar/liquids.ts";
import {
  type JarInScene,
  renderJarPhoto,
  trueAbsorbancePerCm,
} from "../../sample-images/jar/renderJarPhoto.ts";
import type { Card, PlacedCard } from "../../src/card/card.ts";
import { cardNamed } from "../../src/card/cards.ts";
import type { Corners } from "../../src/card/parseCorners.ts";
import { placeCard } from "../../src/card/placeCard.ts";
import { samplePatches } from "../../src/card/samplePatches.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { greysOfCard } from "../../src/jar/optics/greysOfCard.ts";
import { SOFT } from "../../src/print/softMix.ts";
import type { Station } from "../../src/jar/place/station.ts";
import type { Matrix3 } from "../../src/numeric/matrix3.ts";

/**
 * A station of its own, with other stripes than the printed backing: 160 x 95 mm at 6 pixels a millimetre, a flat jar 70 mm wide in
 * the middle, the card at the right. Everything is rendered by the forward model of the samples.
 */
export const PIXELS_PER_MM = 6;
const S = PIXELS_PER_MM;

const BACKING = stripedMap(160, 95, [
  { fromMm: 15, toMm: 55, periodMm: 10 },
  { fromMm: 58, toMm: 79, periodMm: 3 },
]);

export const FLAT_JAR: JarInScene = {
  shape: "flat",
  leftMm: 45,
  rightMm: 115,
  wallMm: 2.5,
  topMm: 2,
  levelMm: 7,
  bottomMm: 88,
  insideCm: 5,
  passes: 1,
};

const PITCH = 30;
const FIRST: readonly [number, number] = [990, 300];
const CARD_CORNERS: Corners = [
  [FIRST[0], FIRST[1]],
  [FIRST[0] + 5 * PITCH, FIRST[1]],
  [FIRST[0] + 5 * PITCH, FIRST[1] + 3 * PITCH],
  [FIRST[0], FIRST[1] + 3 * PITCH],
];

export const CHART = cardNamed("chart24-post2014") as Card;

/** The station file's content for that set-up; half a pixel because pixel centres are whole numbers. */
export const STATION: Station = {
  jar: "flat",
  pathCm: 5,
  passes: 1,
  card: { name: CHART.name, cornersPixels: CARD_CORNERS },
  liquidBox: [47.5 * S, 7 * S, 65 * S, 81 * S],
  stripes: {
    wide: { box: [54 * S, 15 * S, 52 * S, 40 * S], periodPixels: 60, firstWhiteY: 15 * S - 0.5 },
    narrow: { box: [54 * S, 58 * S, 52 * S, 21 * S], periodPixels: 18, firstWhiteY: 58 * S - 0.5 },
    besideLeft: [8 * S, 15 * S, 30 * S, 40 * S],
    besideRight: [122 * S, 15 * S, 30 * S, 40 * S],
  },
};

export const STRAIGHT: Matrix3 = [S, 0, 0, 0, S, 0, 0, 0, 1];

export interface ShotOptions {
  readonly liquid?: Liquid;
  readonly jar?: JarInScene;
  readonly camera?: Camera;
  readonly light?: Light;
  readonly gradient?: readonly [number, number];
  readonly exposure?: Exposure;
  readonly toPixels?: Matrix3;
  readonly jpegQuality?: number;
}

let placed: PlacedCard | undefined;

/** A photo of the station with the greys of its card. */
export async function shot(options: ShotOptions = {}): Promise<JarPhoto> {
  const { jpegQuality, ...scene } = options;
  const rendered = renderJarPhoto({
    widthPixels: 1180,
    heightPixels: 570,
    backing: BACKING,
    toPixels: STRAIGHT,
    jar: FLAT_JAR,
    liquid: {},
    chart: { first: FIRST, pitchPixels: PITCH },
    ...scene,
  });
  const raster = jpegQuality === undefined ? rendered : await throughJpeg(rendered, jpegQuality);
  // The card lies still: placed once, by its colours, in the first photo.
  placed ??= placeCard(raster, CHART, CARD_CORNERS);
  return {
    file: "shot.jpg",
    raster,
    greys: greysOfCard(CHART, samplePatches(raster, CHART, placed)),
  };
}

const MIX = [SOFT.slice(0, 3), SOFT.slice(3, 6), SOFT.slice(6, 9)];

/** What a faultless reader would report in that camera and light, bands r g b, per cm. */
export function trueAbsorbance(
  liquid: Liquid,
  {
    camera,
    light,
    pathCm = 5,
    passes = 1,
  }: { camera?: Camera; light?: Light; pathCm?: number; passes?: 1 | 2 } = {},
): Triple {
  return trueAbsorbancePerCm(liquid, pathCm, MIX, { camera, light, passes });
}
