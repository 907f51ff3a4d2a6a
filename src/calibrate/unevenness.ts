import { lightAt } from "./lightAt.ts";
import type { LightField } from "./fitLightField.ts";

/** Places looked at along each side. */
const STEPS = 16;

/**
 * How unevenly a frame is lit: largest minus smallest light over the given part of the frame, as a share of the mean. Of the channels
 * the worst.
 * @param box x, y, width, height in pixels.
 */
export function unevenness(
  field: LightField,
  [x, y, width, height]: readonly [number, number, number, number],
): number {
  const lowest = [Infinity, Infinity, Infinity];
  const highest = [-Infinity, -Infinity, -Infinity];
  for (let row = 0; row <= STEPS; row++)
    for (let column = 0; column <= STEPS; column++)
      lightAt(field, x + (width * column) / STEPS, y + (height * row) / STEPS).forEach(
        (light, c) => {
          lowest[c] = Math.min(lowest[c], light);
          highest[c] = Math.max(highest[c], light);
        },
      );
  return Math.max(...highest.map((value, c) => value - lowest[c]));
}
