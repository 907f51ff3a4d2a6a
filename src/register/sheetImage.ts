import type { Features, GreyImage } from "../vision/features.ts";
import type { Matrix3 } from "../numeric/matrix3.ts";

/** One frame of a pair, as registration sees it: its size, its scale, and grey pictures of it at any size. */
export interface SheetImage {
  readonly widthPixels: number;
  readonly heightPixels: number;
  /** Full pixels per inch on the sheet. Not read where `toMm` is given. */
  readonly dpi: number;
  /**
   * For a frame from a camera: the homography from full pixels to millimetres on the plane of the sheet, without mirror.
   * Default: a flatbed's plain scale by `dpi`.
   */
  readonly toMm?: Matrix3 | undefined;
  /**
   * Grey (0.30 R + 0.55 G + 0.15 B of code values, 8 bit) of the whole frame, low-passed and resized to the size asked for;
   * never asked for more pixels than the frame has.
   */
  grey(width: number, height: number): Promise<GreyImage>;
  /** Key points of its `featurePicture`, where they were sought ahead of time. */
  readonly features?: Features | undefined;
}
