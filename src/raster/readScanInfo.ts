import type { Warning } from "../errors.ts";
import { pictureHeader, type ReadOptions } from "./pictureHeader.ts";
import type { ScanInfo } from "./raster.ts";
import { sha256File } from "./sha256File.ts";

/**
 * What is known of a picture beside its pixels. Refuses what `readScan` refuses by the header; damage in the pixel data and an
 * under-filled range show only there.
 * @throws {LastrinseError} As `readScan`.
 */
export async function readScanInfo(
  file: string,
  options: ReadOptions = {},
): Promise<{ readonly info: ScanInfo; readonly warnings: readonly Warning[] }> {
  const header = await pictureHeader(file, options);
  const sha256 = await sha256File(file);
  await header.expectUnchanged();
  return { info: { ...header.info, sha256 }, warnings: header.warnings };
}
