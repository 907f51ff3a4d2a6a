import type { Warning } from "../errors.ts";
import { openScan } from "./openScan.ts";
import type { ReadOptions } from "./pictureHeader.ts";
import type { Raster, ScanInfo } from "./raster.ts";

/** As `openScan`, with all pixels in memory: for photos and small scans. */
export async function readScan(
  file: string,
  options: ReadOptions = {},
): Promise<{
  readonly info: ScanInfo;
  readonly raster: Raster;
  readonly warnings: readonly Warning[];
}> {
  const { info, pixels, warnings } = await openScan(file, options);
  const { width, height, bitDepth } = pixels;
  const data = pixels.rows(0, height);
  pixels.release();
  return { info, raster: { width, height, bitDepth, data }, warnings };
}
