import type { Point } from "../numeric/point.ts";

/** An 8-bit colour picture, height x width x 3, row-major, interleaved R G B. */
export interface ColourImage {
  readonly pixels: Uint8Array;
  readonly width: number;
  readonly height: number;
}

/** A four-sided shape with an even inside: what a patch of a card looks like. */
export interface Quadrilateral {
  /** Clockwise on screen; which of them comes first means nothing. */
  readonly corners: readonly [Point, Point, Point, Point];
  /** Where the diagonals cross: the image of the patch's middle under any perspective. */
  readonly centre: Point;
  /** Square pixels. */
  readonly area: number;
  /** Mean length of the four sides in pixels. */
  readonly side: number;
}

export type PlaneName = "grey" | "red" | "green" | "blue";

export interface QuadrilateralSearch {
  readonly image: ColourImage;
  /** Where to look. Grey shows most patches; a patch as light as the ground beside it shows in one of the others. */
  readonly planes: readonly PlaneName[];
}
