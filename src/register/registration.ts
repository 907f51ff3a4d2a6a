import type { Point } from "../numeric/point.ts";
import type { Warning } from "../errors.ts";
import type { Matrix3 } from "../numeric/matrix3.ts";
import type { Affine } from "./affine.ts";
import type { NodeField } from "./nodeField.ts";

/** What must be kept of a frame to go from its pixels to mm and back. */
export interface FrameGeometry {
  readonly widthPixels: number;
  readonly heightPixels: number;
  /** Homographies between full pixels and mm. */
  readonly toMm: Matrix3;
  readonly fromMm: Matrix3;
  /** No perspective. */
  readonly flat: boolean;
}

/** The map from the before frame to the after frame of one sheet, and how far it may be trusted. */
export interface Registration {
  /** Key points that agree with the affine map. */
  readonly inliers: number;
  /** Of all matched key points, 0..1. */
  readonly inlierShare: number;
  /** Before mm to after mm, without the local displacement. */
  readonly affine: Affine;
  /** Size of the sheet after against before, in mm: 1.01 has grown by 1 %. */
  readonly scaleX: number;
  readonly scaleY: number;
  /** Turn of the after sheet against the before sheet, clockwise on screen, -180..180. */
  readonly rotationDegrees: number;
  /** Tangent of the angle by which the axes closed, unitless. */
  readonly shear: number;
  /** 95th percentile of the distance from the truth at trusted nodes, pixels of the before frame, as `sigmaMm` states it. */
  readonly residualP95Pixels: number;
  /** Share of the sheet's nodes that are not trusted, 0..1. */
  readonly maskedShare: number;
  /** Of the structure in both frames, the share that was found again, 0..1. */
  readonly matchedShare: number;
  /** Median correlation of the places in the last pass, each counting by its structure. */
  readonly medianNcc: number;
  /** Displacement at the nodes, mm of the before frame, added before the affine map. */
  readonly nodes: NodeField;
  /** One for each node, 0..2: trace of its information after outliers lost theirs; above 0.8 the node is trusted. */
  readonly trust: Float64Array;
  /** One for each node: standard deviation of its displacement along either axis, mm of the before frame (`positionSigma`). */
  readonly sigmaMm: Float64Array;
  /** 1 for each node on the sheet, and for those just off its edge. */
  readonly onSheet: Uint8Array;
  /** Trusted nodes, spread over the whole sheet, in full pixels of both frames; at least 30. */
  readonly trustedPoints: readonly { readonly before: Point; readonly after: Point }[];
  readonly before: FrameGeometry;
  readonly after: FrameGeometry;
  readonly warnings: readonly Warning[];
}
