import type { Triple } from "../numeric/triple.ts";
import type { Matrix3 } from "../numeric/matrix3.ts";

/** Fewest numbers first: the order in which the automatic choice prefers them. */
export const MODEL_NAMES = ["3x3", "3x4", "gam+3x3", "curve+3x3", "curve+3x3+plate"] as const;

export type ModelName = (typeof MODEL_NAMES)[number];

/** Tone curve of one channel, applied to a decoded value 0..1 (inverse sRGB already taken). */
export type ToneCurve =
  | { readonly kind: "identity" }
  /** max(c - offset, 0) ^ exponent */
  | { readonly kind: "power"; readonly offset: number; readonly exponent: number }
  /** Monotone cubic through knots, linear beyond the ends. */
  | {
      readonly kind: "monotone";
      readonly x: readonly number[];
      readonly y: readonly number[];
      readonly slope: readonly number[];
    };

/** Smoothed thin plate in Lab: three-dimensional biharmonic, kernel minus the distance. */
export interface ThinPlate {
  readonly nodes: readonly Triple[];
  /** One row of three weights (for L*, a*, b*) a node. */
  readonly weights: readonly Triple[];
  /** Four rows: constant, L*, a*, b*; three columns. */
  readonly affine: readonly [Triple, Triple, Triple, Triple];
}

/**
 * From device values of one frame to CIELAB D50: decode, tone curve per channel, (mean over an area), affine map to XYZ,
 * optional plate in Lab. Everything up to the affine map is linear in light, so areas are averaged between the two.
 */
export interface Correction {
  readonly model: ModelName;
  readonly curves: readonly [ToneCurve, ToneCurve, ToneCurve];
  /** Tone-corrected linear RGB to XYZ (D50, Y = 1 for the perfect diffuser). */
  readonly matrix: Matrix3;
  /** Added to XYZ; zeros except for the 3x4 model. */
  readonly offset: Triple;
  readonly plate: ThinPlate | null;
}
