import type { Correction } from "../calibrate/correction.ts";
import { correctionTables } from "../calibrate/correctionTables.ts";
import { linearPlanes } from "../raster/linearPlanes.ts";
import type { Planes } from "../grid/planes.ts";
import type { Frame } from "./openFrame.ts";

/** Resolution of the maps: 1 mm is 6 cells, and a 600 dpi scan shrinks sixteenfold. */
const MAP_DPI = 150;

/** Beyond so many pixels the maps are half as fine, 3 cells to 1 mm: posters would fill the memory. */
const LARGE_PIXELS = 150e6;
const LARGE_MAP_DPI = 75;

/** Area means in linear light at the resolution of the maps; scans that are coarser keep their own. */
export function reducedFrame({ pixels }: Frame, correction: Correction, dpi: number): Planes {
  const large = pixels.width * pixels.height > LARGE_PIXELS;
  const step = Math.max(1, dpi / (large ? LARGE_MAP_DPI : MAP_DPI));
  return linearPlanes(pixels, correctionTables(correction, pixels.bitDepth), step);
}
