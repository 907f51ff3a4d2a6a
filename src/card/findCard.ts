import type { PlaneName, Quadrilateral } from "../vision/quadrilateral.ts";
import type { Point } from "../numeric/point.ts";
import { LastrinseError } from "../errors.ts";
import type { Matrix3 } from "../numeric/matrix3.ts";
import { multiply3 } from "../numeric/matrix3.ts";
import type { Raster } from "../raster/raster.ts";
import type { RowSource } from "../raster/rowSource.ts";
import type { RgbImage } from "../raster/rgbAt.ts";
import { rgbAt } from "../raster/rgbAt.ts";
import { findQuadrilaterals } from "../vision/findQuadrilaterals.ts";
import type { Card, PlacedCard } from "./card.ts";
import { growLattices } from "./growLattices.ts";
import { applyHomography } from "./homography.ts";
import { MATCH_ACCEPTED, MATCH_DOUBTFUL } from "./matchResidual.ts";
import type { CardPlace } from "./matchWindows.ts";
import { matchWindows } from "./matchWindows.ts";
import { residualOf } from "./placeCard.ts";
import { refineCard } from "./refineCard.ts";
import { latticePoints } from "./samplePatches.ts";

/**
 * Where to look in turn until a card is found: long side of the reduced picture, and its planes. Most cards show at the first;
 * each later search finds a few more and costs several times as much.
 */
const SEARCHES: readonly { readonly longSide: number; readonly planes: readonly PlaneName[] }[] = [
  { longSide: 900, planes: ["green"] },
  { longSide: 900, planes: ["grey", "red", "blue"] },
  { longSide: 1400, planes: ["green", "red"] },
  { longSide: 2200, planes: ["green", "red"] },
];

/** So many best places are refined: the first guess of a place that was extrapolated may score worse than it should. */
const PLACES_REFINED = 3;

/** A first guess with a residual above this is not worth refining: wrong places score 31 and more. */
const HOPELESS = 30;

/** Two places are one when no patch lies further apart than this, in pitches. */
const SAME_PLACE = 0.3;

/**
 * Finds a card in a frame by its patches: quadrilaterals that lie on a lattice and carry the card's colours in its order.
 * @param input The file the frame came from, for messages.
 * @returns Its place. `matchResidual` up to 18 is sure; between 18 and 24 the caller warns `card-doubtful`.
 * @throws {LastrinseError} `card-not-found`: no lattice, or none whose colours are the card's (other layouts, mirrored
 * pictures, cards covered or painted over).
 */
export async function findCard(
  raster: Raster | RowSource,
  card: Card,
  input?: string,
): Promise<PlacedCard> {
  let best: PlacedCard | null = null;
  let longSide = 0;
  let mirrored = false;
  const tried: CardPlace[] = [];
  let image: RgbImage | null = null;
  let quads: readonly Quadrilateral[] = [];
  for (const search of SEARCHES) {
    if (image === null || search.longSide !== longSide) {
      const reduced = rgbAt(raster, search.longSide);
      // A small frame is never enlarged: the next size would show the same picture again.
      if (image !== null && reduced.step === image.step) break;
      image = reduced;
      longSide = search.longSide;
      quads = [];
    }
    quads = [...quads, ...(await findQuadrilaterals({ image, planes: search.planes }))];
    for (const place of candidatePlaces(image, quads, card)) {
      if (tried.some((other) => isSamePlace(place, other, card))) continue;
      tried.push(place);
      const placed = await refinedPlace(raster, card, place.toPixels);
      if (placed === null || (best !== null && placed.matchResidual >= best.matchResidual))
        continue;
      best = placed;
      mirrored = place.mirrored;
      if (best.matchResidual <= MATCH_ACCEPTED) return upright(best, mirrored, card, input);
    }
  }
  if (best === null || !(best.matchResidual <= MATCH_DOUBTFUL)) throw notFound(card, best, input);
  return upright(best, mirrored, card, input);
}

/** The few places on all lattices whose colours fit best, none of them twice, in pixels of the frame. */
function candidatePlaces(
  image: RgbImage,
  quads: readonly Quadrilateral[],
  card: Card,
): CardPlace[] {
  const places = growLattices(quads)
    .flatMap((lattice) => matchWindows(image, lattice, card))
    .filter(({ residual }) => residual <= HOPELESS)
    .sort((a, b) => a.residual - b.residual);
  const chosen: CardPlace[] = [];
  for (const place of places) {
    if (chosen.length === PLACES_REFINED) break;
    if (!chosen.some((other) => isSamePlace(place, other, card))) chosen.push(place);
  }
  return chosen.map((place) => ({ ...place, toPixels: toFrame(place.toPixels, image.step) }));
}

function isSamePlace(a: CardPlace, b: CardPlace, card: Card): boolean {
  const [x0, y0] = applyHomography(a.toPixels, [0, 0]);
  const [x1, y1] = applyHomography(a.toPixels, [1, 0]);
  const reach = SAME_PLACE * Math.hypot(x1 - x0, y1 - y0);
  return latticePoints(card).every((p) => {
    const [ax, ay] = applyHomography(a.toPixels, p);
    const [bx, by] = applyHomography(b.toPixels, p);
    return Math.hypot(ax - bx, ay - by) < reach;
  });
}

/** Pixels of a reduced picture to pixels of the frame, after a map to the former. */
function toFrame(H: Matrix3, step: number): Matrix3 {
  const shift = 0.5 * step - 0.5;
  return multiply3([step, 0, shift, 0, step, shift, 0, 0, 1], H);
}

/** null where a patch centre leaves the frame. */
async function refinedPlace(
  raster: Raster | RowSource,
  card: Card,
  guess: Matrix3,
): Promise<PlacedCard | null> {
  const H = await refineCard(raster, card, guess);
  const centres = latticePoints(card).map((p) => applyHomography(H, p));
  const inside = ([x, y]: Point): boolean =>
    x >= 0 && y >= 0 && x <= raster.width - 1 && y <= raster.height - 1;
  if (!centres.every(inside)) return null;
  const last = card.rows * card.columns - 1;
  const corners = [
    centres[0],
    centres[card.columns - 1],
    centres[last],
    centres[last - card.columns + 1],
  ] as const;
  const matchResidual = residualOf(raster, card, { corners, centres });
  return Number.isNaN(matchResidual) ? null : { corners, centres, matchResidual };
}

function upright(placed: PlacedCard, mirrored: boolean, card: Card, input?: string): PlacedCard {
  if (!mirrored) return placed;
  throw new LastrinseError(
    "card-not-found",
    `Expected ${card.title} the right way round in ${input ?? "the picture"}; received its mirror image.`,
    {
      remedy: "Turn mirroring off in the scanner or camera program and take the picture again.",
      input,
    },
  );
}

function notFound(card: Card, best: PlacedCard | null, input?: string): LastrinseError {
  const seen =
    best === null
      ? "no such card was found"
      : `the closest thing has other colours (residual ${best.matchResidual.toFixed(1)}, limit ${MATCH_DOUBTFUL})`;
  return new LastrinseError(
    "card-not-found",
    `Expected ${card.title} in ${input ?? "the picture"}; ${seen}.`,
    {
      remedy:
        "Take the picture with the whole card in frame, not mirrored, nothing over it and no glare on it, and check that this is the card named; or give the centres of its four corner patches.",
      input,
    },
  );
}
