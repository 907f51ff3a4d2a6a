import type { Point } from "../numeric/point.ts";
import { sharedBytes } from "../numeric/shared.ts";
import { MM_PER_INCH, throughHomography, type SheetFrame } from "./sheetFrame.ts";
import { fillPolygon } from "../grid/polygon.ts";

/** Working pixels in millimetres: the centre of (column, row) is left + (column + 0.5) pitchX, top + (row + 0.5) pitchY. */
export interface Lattice {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly top: number;
  readonly pitchX: number;
  readonly pitchY: number;
}

/** A grey picture of a frame, flat in mm, at a working resolution. */
export interface WorkingGrey extends Lattice {
  readonly pixels: Uint8Array;
  /** 1 where the frame shows nothing (the corners of a frame in perspective); null where it shows everything. */
  readonly outside: Uint8Array | null;
}

/** The picture of a frame at `dpi`, or at the frame's own resolution where that is coarser. */
export async function workingGrey(frame: SheetFrame, dpi: number): Promise<WorkingGrey> {
  const { image } = frame;
  const share = Math.min(1, dpi / frame.dpi);
  const grey = await image.grey(
    Math.max(1, Math.round(image.widthPixels * share)),
    Math.max(1, Math.round(image.heightPixels * share)),
  );
  if (frame.flat) {
    const { width, height, pixels } = grey;
    return {
      pixels,
      width,
      height,
      left: frame.left,
      top: frame.top,
      pitchX: frame.widthMm / width,
      pitchY: frame.heightMm / height,
      outside: null,
    };
  }
  const pitch = MM_PER_INCH / Math.min(dpi, frame.dpi);
  const width = Math.ceil(frame.widthMm / pitch);
  const height = Math.ceil(frame.heightMm / pitch);
  const pixels = new Uint8Array(width * height);
  const outside = new Uint8Array(width * height);
  const scaleX = grey.width / image.widthPixels;
  const scaleY = grey.height / image.heightPixels;
  for (let row = 0, i = 0; row < height; row++)
    for (let column = 0; column < width; column++, i++) {
      const [fullX, fullY] = throughHomography(
        frame.fromMm,
        frame.left + (column + 0.5) * pitch,
        frame.top + (row + 0.5) * pitch,
      );
      const x = (fullX + 0.5) * scaleX - 0.5;
      const y = (fullY + 0.5) * scaleY - 0.5;
      const x0 = Math.floor(x);
      const y0 = Math.floor(y);
      if (!(x0 >= 0 && y0 >= 0 && x0 + 1 < grey.width && y0 + 1 < grey.height)) {
        outside[i] = 1;
        continue;
      }
      const at = y0 * grey.width + x0;
      const upper = grey.pixels[at] + (x - x0) * (grey.pixels[at + 1] - grey.pixels[at]);
      const below = at + grey.width;
      const lower = grey.pixels[below] + (x - x0) * (grey.pixels[below + 1] - grey.pixels[below]);
      pixels[i] = Math.round(upper + (y - y0) * (lower - upper));
    }
  return {
    pixels,
    width,
    height,
    left: frame.left,
    top: frame.top,
    pitchX: pitch,
    pitchY: pitch,
    outside,
  };
}

/**
 * 1 for each working pixel under one of the polygons (mm), or outside the frame; null where there is none.
 */
export function excludedPixels(
  picture: WorkingGrey,
  polygons: readonly (readonly Point[])[],
): Uint8Array | null {
  const { width, height, outside } = picture;
  if (outside === null && polygons.length === 0) return null;
  const inPixels = (polygon: readonly Point[]): Point[] =>
    polygon.map(([x, y]) => [
      (x - picture.left) / picture.pitchX - 0.5,
      (y - picture.top) / picture.pitchY - 0.5,
    ]);
  const excluded = sharedBytes(width * height);
  for (const polygon of polygons) fillPolygon(excluded, width, inPixels(polygon), 1);
  if (outside !== null) for (let i = 0; i < excluded.length; i++) excluded[i] |= outside[i];
  return excluded;
}
