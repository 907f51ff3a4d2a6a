import type { Point } from "../numeric/point.ts";
import type { Card, PlacedCard } from "./card.ts";

/** How far a card reaches beyond the centres of its corner patches, in pitches: half a patch, frame and printed border. */
const CARD_BORDER_PITCHES = 1.1;

/** The four corners of the whole card, in pixels, pushed outward from its lattice. */
export function cardOutline({ corners }: PlacedCard, { rows, columns }: Card): Point[] {
  const [a, b, c, d] = corners;
  const alongColumn = CARD_BORDER_PITCHES / (columns - 1);
  const alongRow = CARD_BORDER_PITCHES / (rows - 1);
  const beyond = (corner: Point, beside: Point, below: Point): Point => [
    corner[0] + (corner[0] - beside[0]) * alongColumn + (corner[0] - below[0]) * alongRow,
    corner[1] + (corner[1] - beside[1]) * alongColumn + (corner[1] - below[1]) * alongRow,
  ];
  return [beyond(a, b, d), beyond(b, a, c), beyond(c, d, b), beyond(d, c, a)];
}
