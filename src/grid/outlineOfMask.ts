import type { Point } from "../numeric/point.ts";
import { convexHull } from "./convexHull.ts";
import type { Grid } from "./grid.ts";

/**
 * The convex outline of a mask, in full pixels.
 * @returns null where the mask is empty.
 */
export function outlineOfMask(
  mask: Uint8Array,
  { width, height, stepX, stepY }: Omit<Grid, "mmPerCell">,
): Point[] | null {
  const ends: Point[] = [];
  for (let row = 0; row < height; row++) {
    const first = mask.indexOf(1, row * width);
    if (first < 0 || first >= (row + 1) * width) continue;
    const last = mask.lastIndexOf(1, (row + 1) * width - 1);
    const left = (first - row * width) * stepX - 0.5;
    const right = (last - row * width + 1) * stepX - 0.5;
    ends.push([left, row * stepY - 0.5], [right, row * stepY - 0.5]);
    ends.push([left, (row + 1) * stepY - 0.5], [right, (row + 1) * stepY - 0.5]);
  }
  return ends.length === 0 ? null : convexHull(ends);
}
