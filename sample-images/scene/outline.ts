import type { Shape } from "./shapes.ts";
import { polygon } from "./shapes.ts";
import { valueNoise } from "./valueNoise.ts";

/** No part of the edge lies further inside the trimmed size than this. */
export const OUTLINE_DEPTH_MM = 12;

/**
 * The outline of a worn sheet: edges that waver by tenths of a mm, a tear from the right edge, a lost corner at the foot.
 * @returns Signed distance in mm, negative inside the sheet; exact enough near the edge to soften it.
 */
export function sheetOutline(
  widthMm: number,
  heightMm: number,
  seed: number,
): (x: number, y: number) => number {
  const tearY = 0.62 * heightMm;
  const tear: Shape = polygon([
    [widthMm + 2, tearY - 0.9],
    [widthMm - 2.2, tearY - 0.2],
    [widthMm - 4.6, tearY + 1.1],
    [widthMm - 5.6, tearY + 2.4],
    [widthMm - 4.2, tearY + 1.9],
    [widthMm - 2, tearY + 0.6],
    [widthMm + 2, tearY + 0.5],
  ]);
  const lostCorner: Shape = polygon([
    [-2, heightMm - 5.4],
    [1.6, heightMm - 4.2],
    [3.1, heightMm - 1.9],
    [4.6, heightMm + 2],
    [-2, heightMm + 2],
  ]);
  return (x, y) => {
    const alongX = 0.18 * valueNoise(seed, x / 3, 0) + 0.12;
    const alongY = 0.18 * valueNoise(seed + 1, y / 3, 0) + 0.12;
    const edge = Math.max(
      alongY - x,
      x - widthMm + 0.6 * alongY,
      alongX - y,
      y - heightMm + 0.8 * alongX,
    );
    let distance = edge;
    if (x > widthMm - OUTLINE_DEPTH_MM && Math.abs(y - tearY) < OUTLINE_DEPTH_MM)
      distance = Math.max(distance, -tear.distance(x, y));
    if (x < OUTLINE_DEPTH_MM && y > heightMm - OUTLINE_DEPTH_MM)
      distance = Math.max(distance, -lostCorner.distance(x, y));
    return distance;
  };
}
