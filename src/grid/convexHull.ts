import type { Point } from "../numeric/point.ts";

const turn = (o: Point, a: Point, b: Point): number =>
  (a[0] - o[0]) * (b[1] - o[1]) - (a[1] - o[1]) * (b[0] - o[0]);

/** Corners of the smallest convex polygon round the points, in order (Andrew 1979, the monotone chain). */
export function convexHull(points: readonly Point[]): Point[] {
  const sorted = [...points].sort((p, q) => p[0] - q[0] || p[1] - q[1]);
  if (sorted.length < 3) return sorted;
  const chain = (ordered: readonly Point[]): Point[] => {
    const hull: Point[] = [];
    for (const point of ordered) {
      while (hull.length > 1 && turn(hull[hull.length - 2], hull[hull.length - 1], point) <= 0)
        hull.pop();
      hull.push(point);
    }
    hull.pop();
    return hull;
  };
  return [...chain(sorted), ...chain(sorted.reverse())];
}
