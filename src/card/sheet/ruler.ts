import { INK, type Shape } from "./drawing.ts";

const HAIRLINE_MM = 0.18;

/** Length of the tick at a whole millimetre: tens long, fives middling. */
function tickLength(mm: number): number {
  if (mm % 10 === 0) return 3.5;
  return mm % 5 === 0 ? 2.6 : 1.6;
}

/**
 * A millimetre scale from (x, y) along one axis; its ticks point to positive `side` (down of a horizontal scale, right of a
 * vertical one) or to negative.
 */
export function ruler(
  x: number,
  y: number,
  lengthMm: number,
  axis: "horizontal" | "vertical",
  side: 1 | -1,
): Shape[] {
  const shapes: Shape[] = [];
  for (let mm = 0; mm <= lengthMm; mm++) {
    const tick = side * tickLength(mm);
    shapes.push({
      kind: "line",
      from: axis === "horizontal" ? [x + mm, y] : [x, y + mm],
      to: axis === "horizontal" ? [x + mm, y + tick] : [x + tick, y + mm],
      width: HAIRLINE_MM,
      stroke: INK,
    });
  }
  return shapes;
}
