import type { Point } from "../numeric/point.ts";

/** Whether the point lies inside, by the even-odd rule; on the border either answer may come. */
export function insidePolygon(polygon: readonly Point[], x: number, y: number): boolean {
  let inside = false;
  for (let i = 0, j = polygon.length - 1; i < polygon.length; j = i++) {
    const [xi, yi] = polygon[i];
    const [xj, yj] = polygon[j];
    if (yi > y !== yj > y && x < xi + ((y - yi) * (xj - xi)) / (yj - yi)) inside = !inside;
  }
  return inside;
}

/**
 * Sets `value` in every pixel whose centre lies inside (even-odd rule).
 * @param mask Row-major, `width` columns; changed in place.
 * @param polygon In pixels of the mask, (0, 0) the centre of the first.
 */
export function fillPolygon(
  mask: Uint8Array,
  width: number,
  polygon: readonly Point[],
  value: number,
): void {
  const height = mask.length / width;
  const ys = polygon.map(([, y]) => y);
  const last = Math.min(height - 1, Math.floor(Math.max(...ys)));
  for (let y = Math.max(0, Math.ceil(Math.min(...ys))); y <= last; y++) {
    const crossings: number[] = [];
    for (let i = 0, j = polygon.length - 1; i < polygon.length; j = i++) {
      const [xi, yi] = polygon[i];
      const [xj, yj] = polygon[j];
      if (yi > y !== yj > y) crossings.push(xi + ((y - yi) * (xj - xi)) / (yj - yi));
    }
    crossings.sort((a, b) => a - b);
    for (let k = 0; k + 1 < crossings.length; k += 2) {
      const from = Math.max(0, Math.ceil(crossings[k]));
      const to = Math.min(width, Math.ceil(crossings[k + 1]));
      if (from < to) mask.fill(value, y * width + from, y * width + to);
    }
  }
}
