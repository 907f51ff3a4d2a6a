import type { Correction } from "../calibrate/correction.ts";
import { encodePng } from "./encodePng.ts";
import type { Planes } from "../grid/planes.ts";
import { displayPicture } from "./displayPicture.ts";

/** A frame as a PNG to look at. @param dpi Cells an inch, to state in the file. */
export function pictureOfPlanes(
  planes: Planes,
  correction: Correction,
  dpi: number,
): Promise<Buffer> {
  const { width, height } = planes;
  return encodePng({ width, height, channels: 3, data: displayPicture(planes, correction) }, dpi);
}
