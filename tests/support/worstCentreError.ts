import type { Point } from "../../src/numeric/point.ts";
import type { Card } from "../../src/card/card.ts";

/** Largest distance of a found patch centre from the true one, in pitches: those between the true patch and its neighbours. */
export function worstCentreError(
  { columns, rows }: Card,
  found: readonly Point[],
  truth: readonly Point[],
): number {
  const errors = truth.map(([x, y], i) => {
    const column = i % columns;
    const row = Math.floor(i / columns);
    const beside = truth[column + 1 < columns ? i + 1 : i - 1];
    const below = truth[row + 1 < rows ? i + columns : i - columns];
    const pitch = Math.min(
      Math.hypot(beside[0] - x, beside[1] - y),
      Math.hypot(below[0] - x, below[1] - y),
    );
    return Math.hypot(found[i][0] - x, found[i][1] - y) / pitch;
  });
  return Math.max(...errors);
}
