/** A length in the frame of the drawing, x right, y down from the top-left corner, millimetres. Colours are sRGB, `#rrggbb`. */
export type Shape =
  | {
      readonly kind: "rect";
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly height: number;
      readonly fill: string;
    }
  | {
      readonly kind: "circle";
      readonly x: number;
      readonly y: number;
      readonly radius: number;
      readonly fill: string;
    }
  | {
      readonly kind: "line";
      readonly from: readonly [number, number];
      readonly to: readonly [number, number];
      readonly width: number;
      readonly stroke: string;
    }
  | {
      readonly kind: "text";
      readonly x: number;
      /** Of the baseline. */
      readonly y: number;
      readonly text: string;
      readonly size: number;
      readonly anchor: "start" | "middle" | "end";
      readonly fill: string;
    };

/** One printed page, described once and written as SVG and as PDF. Shapes are painted in order. */
export interface Drawing {
  readonly title: string;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly shapes: readonly Shape[];
}

/** Printing black. */
export const INK = "#000000";

/** Bare ground. */
export const GROUND = "#ffffff";

/** The same shapes at another place. */
export function shifted(shapes: readonly Shape[], dx: number, dy: number): Shape[] {
  return shapes.map((shape) =>
    shape.kind === "line"
      ? {
          ...shape,
          from: [shape.from[0] + dx, shape.from[1] + dy],
          to: [shape.to[0] + dx, shape.to[1] + dy],
        }
      : { ...shape, x: shape.x + dx, y: shape.y + dy },
  );
}
