import type { Point } from "../numeric/point.ts";
import { insidePolygon } from "../grid/polygon.ts";

/** What of a frame is the sheet, in mm. */
export interface SheetRegion {
  /** The outline of the sheet; null where it isn't known. */
  readonly outline: readonly Point[] | null;
  /** What lies in the frame but isn't the sheet: the card, a ruler. */
  readonly excluded: readonly (readonly Point[])[];
}

function distanceToSide([x0, y0]: Point, [x1, y1]: Point, x: number, y: number): number {
  const length2 = (x1 - x0) ** 2 + (y1 - y0) ** 2;
  const along = length2 > 0 ? ((x - x0) * (x1 - x0) + (y - y0) * (y1 - y0)) / length2 : 0;
  const t = Math.max(0, Math.min(1, along));
  return Math.hypot(x - x0 - t * (x1 - x0), y - y0 - t * (y1 - y0));
}

/** Whether a place lies on the sheet or within `marginMm` of it, and not under what is excluded. */
export function onRegion(
  { outline, excluded }: SheetRegion,
  x: number,
  y: number,
  marginMm: number,
): boolean {
  const near = (polygon: readonly Point[]): boolean =>
    polygon.some(
      (corner, i) => distanceToSide(corner, polygon[(i + 1) % polygon.length], x, y) <= marginMm,
    );
  const onSheet = outline === null || insidePolygon(outline, x, y) || near(outline);
  return onSheet && !excluded.some((polygon) => insidePolygon(polygon, x, y));
}
