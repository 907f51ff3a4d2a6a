/** A shape by its distance function. */
export interface Shape {
  /** From the outline in mm, negative inside; never changes faster than the way gone (tapering strokes: hardly). */
  readonly distance: (x: number, y: number) => number;
  /** Left, top, right, bottom in mm; the outline lies inside. */
  readonly box: readonly [number, number, number, number];
}

export type Vertex = readonly [number, number];

export function disc(cx: number, cy: number, radius: number): Shape {
  return {
    distance: (x, y) => Math.hypot(x - cx, y - cy) - radius,
    box: [cx - radius, cy - radius, cx + radius, cy + radius],
  };
}

export function rectangle(left: number, top: number, right: number, bottom: number): Shape {
  return {
    distance: (x, y) => Math.max(left - x, x - right, top - y, y - bottom),
    box: [left, top, right, bottom],
  };
}

function segmentDistance(x: number, y: number, a: Vertex, b: Vertex): number {
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  const lengthSquared = dx * dx + dy * dy;
  const along = lengthSquared === 0 ? 0 : ((x - a[0]) * dx + (y - a[1]) * dy) / lengthSquared;
  const t = Math.min(1, Math.max(0, along));
  return Math.hypot(x - a[0] - t * dx, y - a[1] - t * dy);
}

function bounds(points: readonly Vertex[], margin: number): Shape["box"] {
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  return [
    Math.min(...xs) - margin,
    Math.min(...ys) - margin,
    Math.max(...xs) + margin,
    Math.max(...ys) + margin,
  ];
}

/** Even-odd filled polygon. */
export function polygon(points: readonly Vertex[]): Shape {
  return {
    distance: (x, y) => {
      let nearest = Infinity;
      let inside = false;
      for (let i = 0, j = points.length - 1; i < points.length; j = i++) {
        const a = points[i];
        const b = points[j];
        nearest = Math.min(nearest, segmentDistance(x, y, a, b));
        if (a[1] > y !== b[1] > y && x < a[0] + ((y - a[1]) * (b[0] - a[0])) / (b[1] - a[1]))
          inside = !inside;
      }
      return inside ? -nearest : nearest;
    },
    box: bounds(points, 0),
  };
}

/**
 * A brush stroke with round ends.
 * @param radius Half the stroke's width in mm, or one for each point (tapering between them).
 */
export function stroke(points: readonly Vertex[], radius: number | readonly number[]): Shape {
  const radii = points.map((_, i) => (typeof radius === "number" ? radius : radius[i]));
  return {
    distance: (x, y) => {
      let least = Infinity;
      for (let i = 1; i < points.length; i++) {
        const a = points[i - 1];
        const b = points[i];
        const dx = b[0] - a[0];
        const dy = b[1] - a[1];
        const lengthSquared = dx * dx + dy * dy;
        const along = lengthSquared === 0 ? 0 : ((x - a[0]) * dx + (y - a[1]) * dy) / lengthSquared;
        const t = Math.min(1, Math.max(0, along));
        const d =
          Math.hypot(x - a[0] - t * dx, y - a[1] - t * dy) -
          radii[i - 1] -
          t * (radii[i] - radii[i - 1]);
        if (d < least) least = d;
      }
      return least;
    },
    box: bounds(points, Math.max(...radii)),
  };
}

/** The shape grown by a margin all round (shrunk when negative). */
export function grown(shape: Shape, margin: number): Shape {
  const [left, top, right, bottom] = shape.box;
  return {
    distance: (x, y) => shape.distance(x, y) - margin,
    box: [left - margin, top - margin, right + margin, bottom + margin],
  };
}

/** Where both shapes are. */
export function overlap(a: Shape, b: Shape): Shape {
  return {
    distance: (x, y) => Math.max(a.distance(x, y), b.distance(x, y)),
    box: [
      Math.max(a.box[0], b.box[0]),
      Math.max(a.box[1], b.box[1]),
      Math.min(a.box[2], b.box[2]),
      Math.min(a.box[3], b.box[3]),
    ],
  };
}

/** The first shape without the second. */
export function without(a: Shape, b: Shape): Shape {
  return { distance: (x, y) => Math.max(a.distance(x, y), -b.distance(x, y)), box: a.box };
}

/** A disc with teeth, as round a price. */
export function star(cx: number, cy: number, outer: number, inner: number, teeth: number): Shape {
  const points: Vertex[] = [];
  for (let i = 0; i < 2 * teeth; i++) {
    const angle = (Math.PI * i) / teeth;
    const r = i % 2 === 0 ? outer : inner;
    points.push([cx + r * Math.sin(angle), cy - r * Math.cos(angle)]);
  }
  return polygon(points);
}
