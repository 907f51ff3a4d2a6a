import { MM_PER_INCH, type SheetFrame } from "./sheetFrame.ts";
import { workingGrey, type WorkingGrey } from "./workingGrey.ts";

/** Features are sought at this resolution: a magazine cover is about 1500 px long then. */
const FEATURE_DPI = 96;

/** The search takes about 100 bytes a pixel, of a heap of 1 GiB at most: posters are looked at more coarsely. */
const MOST_PIXELS = 2.5e6;

/** The picture of a frame in which its key points are sought. */
export function featurePicture(frame: SheetFrame): Promise<WorkingGrey> {
  const squareInches = (frame.widthMm * frame.heightMm) / MM_PER_INCH ** 2;
  return workingGrey(frame, Math.min(FEATURE_DPI, Math.sqrt(MOST_PIXELS / squareInches)));
}
