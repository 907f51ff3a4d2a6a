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
    distance: (x, y) => length(x - cx, y - cy) - radius,
    box: [cx - radius, cy - radius, cx + radius, cy + radius],
  };
}

export function rectangle(left: number, top: number, right: number, bottom: number): Shape {
  return {
    distance: (x, y) => Math.max(left - x, x - right, top - y, y - bottom),
    box: [left, top, right, bottom],
  };
}

/** Hypotenuse; several times faster than Math.hypot, whose guard against overflow is not needed here. */
function length(dx: number, dy: number): number {
  return Math.sqrt(dx * dx + dy * dy);
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

/** Segments of a path looked at together: a bunch whose box is too far away is passed over. */
const BUNCH = 6;

/**
 * Distance from a path drawn with a pen whose half width runs from radius to radius.
 * @returns Least distance over the segments; negative under the pen.
 */
function pathDistance(
  points: readonly Vertex[],
  radii: readonly number[],
): (x: number, y: number) => number {
  const bunches: { first: number; last: number; box: Shape["box"] }[] = [];
  for (let first = 1; first < points.length; first += BUNCH) {
    const last = Math.min(points.length - 1, first + BUNCH - 1);
    const margin = Math.max(...radii.slice(first - 1, last + 1));
    bunches.push({ first, last, box: bounds(points.slice(first - 1, last + 1), margin) });
  }
  return (x, y) => {
    let least = Infinity;
    for (const { first, last, box } of bunches) {
      const outX = Math.max(box[0] - x, x - box[2], 0);
      const outY = Math.max(box[1] - y, y - box[3], 0);
      if (least <= 0 ? outX + outY > 0 : outX * outX + outY * outY > least * least) continue;
      for (let i = first; i <= last; i++) {
        const a = points[i - 1];
        const dx = points[i][0] - a[0];
        const dy = points[i][1] - a[1];
        const square = dx * dx + dy * dy;
        const along = square === 0 ? 0 : ((x - a[0]) * dx + (y - a[1]) * dy) / square;
        const t = along < 0 ? 0 : along > 1 ? 1 : along;
        const d =
          length(x - a[0] - t * dx, y - a[1] - t * dy) -
          radii[i - 1] -
          t * (radii[i] - radii[i - 1]);
        if (d < least) least = d;
      }
    }
    return least;
  };
}

/** Even-odd filled polygon. */
export function polygon(points: readonly Vertex[]): Shape {
  const closed = [...points, points[0]];
  const outline = pathDistance(
    closed,
    closed.map(() => 0),
  );
  return {
    distance: (x, y) => {
      let inside = false;
      for (let i = 1; i < closed.length; i++) {
        const a = closed[i];
        const b = closed[i - 1];
        if (a[1] > y !== b[1] > y && x < a[0] + ((y - a[1]) * (b[0] - a[0])) / (b[1] - a[1]))
          inside = !inside;
      }
      return inside ? -outline(x, y) : outline(x, y);
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
    distance: pathDistance(points, radii),
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
