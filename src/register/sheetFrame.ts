import { MM_PER_INCH } from "../numeric/units.ts";
import type { Point } from "../numeric/point.ts";
import { invert3, type Matrix3 } from "../numeric/matrix3.ts";
import type { SheetImage } from "./sheetImage.ts";

export { MM_PER_INCH };

/** Where a frame lies in millimetres. For a flatbed the origin is the outer corner of the top-left pixel. */
export interface SheetFrame {
  readonly image: SheetImage;
  /** Full pixels (homogeneous) to mm. */
  readonly toMm: Matrix3;
  readonly fromMm: Matrix3;
  /** The box round the frame, mm. */
  readonly left: number;
  readonly top: number;
  readonly widthMm: number;
  readonly heightMm: number;
  /** Full pixels per inch; of a camera frame, at its middle. */
  readonly dpi: number;
  /** The frame fills its box and has no perspective. */
  readonly flat: boolean;
}

/** The point that a homography maps (x, y) to. */
export function throughHomography(H: Matrix3, x: number, y: number): Point {
  const w = H[6] * x + H[7] * y + H[8];
  return [(H[0] * x + H[1] * y + H[2]) / w, (H[3] * x + H[4] * y + H[5]) / w];
}

/** @throws {RangeError} No scale is known. */
export function frameOf(image: SheetImage): SheetFrame {
  const { widthPixels: width, heightPixels: height, dpi } = image;
  if (image.toMm === undefined) {
    if (!(dpi > 0 && Number.isFinite(dpi)))
      throw new RangeError("Expected the dpi of the frame, a positive number.");
    const mm = MM_PER_INCH / dpi;
    return {
      image,
      toMm: [mm, 0, mm / 2, 0, mm, mm / 2, 0, 0, 1],
      fromMm: [1 / mm, 0, -0.5, 0, 1 / mm, -0.5, 0, 0, 1],
      left: 0,
      top: 0,
      widthMm: width * mm,
      heightMm: height * mm,
      dpi,
      flat: true,
    };
  }
  const H = image.toMm;
  const corners = [
    throughHomography(H, -0.5, -0.5),
    throughHomography(H, width - 0.5, -0.5),
    throughHomography(H, width - 0.5, height - 0.5),
    throughHomography(H, -0.5, height - 0.5),
  ];
  const left = Math.min(...corners.map(([x]) => x));
  const top = Math.min(...corners.map(([, y]) => y));
  const here = throughHomography(H, width / 2, height / 2);
  const right = throughHomography(H, width / 2 + 1, height / 2);
  const below = throughHomography(H, width / 2, height / 2 + 1);
  const area =
    (right[0] - here[0]) * (below[1] - here[1]) - (right[1] - here[1]) * (below[0] - here[0]);
  return {
    image,
    toMm: H,
    fromMm: invert3(H),
    left,
    top,
    widthMm: Math.max(...corners.map(([x]) => x)) - left,
    heightMm: Math.max(...corners.map(([, y]) => y)) - top,
    dpi: MM_PER_INCH / Math.sqrt(Math.abs(area)),
    flat: false,
  };
}

/** Whether the frame shows the place. */
export function frameShows({ fromMm, image }: SheetFrame, xMm: number, yMm: number): boolean {
  const [x, y] = throughHomography(fromMm, xMm, yMm);
  return x >= -0.5 && y >= -0.5 && x <= image.widthPixels - 0.5 && y <= image.heightPixels - 0.5;
}
