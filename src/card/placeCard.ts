import type { Point } from "../numeric/point.ts";
import { LastrinseError } from "../errors.ts";
import type { Raster } from "../raster/raster.ts";
import type { RowSource } from "../raster/rowSource.ts";
import type { Card, PlacedCard } from "./card.ts";
import { applyHomography, fitHomography } from "./homography.ts";
import { MATCH_DOUBTFUL, matchResidual } from "./matchResidual.ts";
import type { Corners } from "./parseCorners.ts";
import { latticePoints, samplePatches } from "./samplePatches.ts";

const ORDER_REMEDY =
  "Give the centres of the four corner patches in this order: first of row 1, last of row 1, last of the last row, first of the last row.";

/** The eight ways to name the corners of one quadrilateral in turn; the last four run the other way round. */
const ORDERS = [
  [0, 1, 2, 3],
  [1, 2, 3, 0],
  [2, 3, 0, 1],
  [3, 0, 1, 2],
  [1, 0, 3, 2],
  [0, 3, 2, 1],
  [3, 2, 1, 0],
  [2, 1, 0, 3],
] as const;

/** Another order must explain the colours this much better (in Lab units) before the order given is called wrong. */
const CLEARLY_BETTER = 4;

/**
 * A card placed by hand, from the centres of its four corner patches.
 * @param corners First of row 1, last of row 1, last of the last row, first of the last row, in pixels of `raster`.
 * @param input The file or option the corners belong to, for messages.
 * @throws {LastrinseError} `card-not-found`: a point outside the frame, a shape that no view of a card can have, another order
 * of the corners, a mirrored picture, or colours that are not the card's (residual above 24).
 */
export function placeCard(
  raster: Raster | RowSource,
  card: Card,
  corners: Corners,
  input?: string,
): PlacedCard {
  const refuse = (message: string, remedy: string): never => {
    throw new LastrinseError("card-not-found", message, { remedy, input });
  };
  const outside = corners.find(
    ([x, y]) => !(x >= 0 && y >= 0 && x <= raster.width - 1 && y <= raster.height - 1),
  );
  if (outside !== undefined)
    refuse(
      `Expected corner patches inside the picture of ${raster.width} x ${raster.height} pixels, received ${outside.join(",")}.`,
      "Read the coordinates in the upright picture at full size; the top left pixel is 0,0.",
    );
  if (!isConvex(corners))
    refuse(
      `Expected the corners of one convex four-sided shape taken in turn, received ${corners.map((p) => p.join(",")).join(" ")}.`,
      ORDER_REMEDY,
    );

  const residuals = ORDERS.map((order) => {
    const turned = place(card, [
      corners[order[0]],
      corners[order[1]],
      corners[order[2]],
      corners[order[3]],
    ]);
    return turned === null ? NaN : residualOf(raster, card, turned);
  });
  const placed = place(card, corners);
  if (placed === null || Number.isNaN(residuals[0]))
    return refuse(
      `Expected patches of some pixels for ${card.title}, received corners too close together.`,
      `Scan or photograph the card larger. ${ORDER_REMEDY}`,
    );
  const best = residuals.reduce((least, value, i) => (value < residuals[least] ? i : least), 0);
  if (residuals[best] <= MATCH_DOUBTFUL) {
    const order = ORDERS[best].map((i) => corners[i]);
    if (!runsClockwise(order))
      refuse(
        `Expected ${card.title} the right way round, received its mirror image: the colours match only when the corners run backwards, ${orderText(order)}.`,
        "Turn mirroring off in the scanner or camera program and take the picture again.",
      );
    if (residuals[0] - residuals[best] > CLEARLY_BETTER)
      refuse(
        `Expected the corners of ${card.title} from the first patch of row 1 on, received another order: the colours match when the order is ${orderText(order)}.`,
        ORDER_REMEDY,
      );
  }
  if (!(residuals[0] <= MATCH_DOUBTFUL))
    refuse(
      `Expected the colours of ${card.title} at these corners, received colours that do not match (residual ${residuals[0].toFixed(1)}, limit ${MATCH_DOUBTFUL}).`,
      `Check that this is the card named, that nothing covers it and that it is not overexposed. ${ORDER_REMEDY}`,
    );
  return { ...placed, matchResidual: residuals[0] };
}

function orderText(corners: readonly Point[]): string {
  return `"${corners.map((corner) => corner.join(",")).join(" ")}"`;
}

function place(card: Card, corners: Corners): Omit<PlacedCard, "matchResidual"> | null {
  const right = card.columns - 1;
  const bottom = card.rows - 1;
  const H = fitHomography([[0, 0], [right, 0], [right, bottom], [0, bottom]], corners); // prettier-ignore
  return H && { corners, centres: latticePoints(card).map((p) => applyHomography(H, p)) };
}

/** Residual of a placed card from full-resolution samples; NaN where a patch holds no pixel. */
export function residualOf(
  raster: Raster | RowSource,
  card: Card,
  placed: Omit<PlacedCard, "matchResidual">,
): number {
  const samples = samplePatches(raster, card, { ...placed, matchResidual: NaN });
  return matchResidual(
    samples.map((sample) => sample.linear),
    card,
  );
}

/** Twice the signed areas of the triangles at each corner: positive where the outline turns clockwise on screen. */
function turns(corners: readonly Point[]): number[] {
  return corners.map(([x, y], i) => {
    const [x1, y1] = corners[(i + 1) % 4];
    const [x2, y2] = corners[(i + 2) % 4];
    return (x1 - x) * (y2 - y1) - (y1 - y) * (x2 - x1);
  });
}

function isConvex(corners: readonly Point[]): boolean {
  return turns(corners).every((turn) => turn > 0) || turns(corners).every((turn) => turn < 0);
}

function runsClockwise(corners: readonly Point[]): boolean {
  return turns(corners)[0] > 0;
}
