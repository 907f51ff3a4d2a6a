import type { SheetRegion } from "./sheetRegion.ts";
import type { WorkingGrey } from "./workingGrey.ts";

/** A working picture seen in a mirror: left and right exchanged within the same box. */
export function mirroredPicture(picture: WorkingGrey): WorkingGrey {
  const { width, height } = picture;
  const mirrored = (pixels: Uint8Array): Uint8Array => {
    const out = new Uint8Array(pixels.length);
    for (let row = 0; row < height; row++)
      for (let column = 0; column < width; column++)
        out[row * width + column] = pixels[(row + 1) * width - 1 - column];
    return out;
  };
  return {
    ...picture,
    pixels: mirrored(picture.pixels),
    outside: picture.outside && mirrored(picture.outside),
  };
}

/** The region of a picture, mirrored with it. */
export function mirroredRegion(
  { outline, excluded }: SheetRegion,
  { left, width, pitchX }: WorkingGrey,
): SheetRegion {
  const mirrored = (polygon: SheetRegion["excluded"][number]): SheetRegion["excluded"][number] =>
    polygon.map(([x, y]) => [2 * left + width * pitchX - x, y] as const);
  return { outline: outline && mirrored(outline), excluded: excluded.map(mirrored) };
}
