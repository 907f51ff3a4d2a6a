import type { Box } from "../../grid/box.ts";
import type { Point } from "../../numeric/point.ts";

/** Horizontal stripes, white and black of equal width. */
export interface StripeZone {
  readonly box: Box;
  readonly periodPixels: number;
  /** Upper edge of a white stripe, at the middle of the box; any whole number of periods may be added. */
  readonly firstWhiteY: number;
}

/** The jar, as the user states it. */
export interface JarShape {
  readonly jar: "flat" | "round";
  /** Light path inside: front to back of a flat jar, inner diameter of a round one. */
  readonly insideMm: number;
  /** 2 where the backing touches the jar and is lit through it. */
  readonly passes: 1 | 2;
}

/** Where things stand in the photos of one set-up. */
export interface Station {
  readonly jar: "flat" | "round";
  /** Flat: path through the liquid. Round: inner diameter. */
  readonly pathCm: number;
  readonly passes: 1 | 2;
  readonly card: {
    readonly name: string;
    readonly cornersPixels: readonly [Point, Point, Point, Point];
  } | null;
  readonly liquidBox: Box;
  /** null: the liquid shows no fine stripes. */
  readonly stripes: {
    readonly wide: StripeZone;
    readonly narrow: StripeZone | null;
    /** Wide stripes seen past the jar. */
    readonly besideLeft: Box;
    readonly besideRight: Box;
  };
}

/** Mean path through the central 35 % of a round jar, as a share of its inner diameter: mean of 2 sqrt(R^2 - x^2) there. */
export const ROUND_PATH_SHARE = 0.97;

/** Part of a round jar's inner width that is read. */
export const ROUND_WIDTH_SHARE = 0.35;

/** Length of the light's way through the liquid, cm. */
export function pathLengthCm({ jar, pathCm }: Pick<Station, "jar" | "pathCm">): number {
  return jar === "round" ? ROUND_PATH_SHARE * pathCm : pathCm;
}
