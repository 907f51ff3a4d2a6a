import type { Point } from "../numeric/point.ts";
import type { LabImage } from "./labImage.ts";

/** Corners in full pixels of the frame, in order; closed by itself. */
export type Polygon = readonly Point[];

/**
 * Writes a value into all cells whose centre lies inside a polygon (even-odd rule).
 * @param mask Row-major, of the image's shape; changed in place.
 * @param polygon In full pixels of the frame; parts beyond the frame are cut off.
 */
export function fillPolygon(
  mask: Uint8Array,
  image: Pick<LabImage, "width" | "height" | "stepX" | "stepY">,
  polygon: Polygon,
  value: number,
): void {
  const { width, height, stepX, stepY } = image;
  const xs = polygon.map(([X]) => (X + 0.5) / stepX - 0.5);
  const ys = polygon.map(([, Y]) => (Y + 0.5) / stepY - 0.5);
  const first = Math.max(0, Math.ceil(Math.min(...ys)));
  const last = Math.min(height - 1, Math.floor(Math.max(...ys)));
  for (let y = first; y <= last; y++) {
    const crossings: number[] = [];
    for (let i = 0, j = xs.length - 1; i < xs.length; j = i++)
      if (ys[i] <= y !== ys[j] <= y)
        crossings.push(xs[i] + ((y - ys[i]) / (ys[j] - ys[i])) * (xs[j] - xs[i]));
    crossings.sort((p, q) => p - q);
    for (let c = 0; c + 1 < crossings.length; c += 2) {
      const from = Math.max(0, Math.ceil(crossings[c]));
      const to = Math.min(width - 1, Math.floor(crossings[c + 1]));
      if (from <= to) mask.fill(value, y * width + from, y * width + to + 1);
    }
  }
}
