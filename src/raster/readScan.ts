import { basename } from "node:path";
import { LastrinseError, type Warning } from "../errors.ts";
import { decodeRaster } from "./decodeRaster.ts";
import { pictureHeader, type ReadOptions } from "./pictureHeader.ts";
import type { Raster, ScanInfo } from "./raster.ts";
import { sha256File } from "./sha256File.ts";
import { underFilledRange } from "./underFilledRange.ts";

/**
 * Reads a scan or photo for measuring: device values as the file holds them, upright, RGB, 8 or 16 bit.
 * The file is opened read-only. What it is goes by its content (TIFF, BigTIFF, PNG, JPEG), never by its name's ending.
 * @param file Path.
 * @returns `raster.bitDepth` is 8 where a 16-bit file turned out to hold 8-bit values (`info.bitDepth` stays 16). Warnings:
 *   `no-profile`, `no-dpi`, `under-filled-range`.
 * @throws {LastrinseError} `unreadable` (not there, a folder, no permission, empty, cut short, damaged, no such page),
 *   `unsupported-format` (other file formats; greyscale, CMYK, Lab, floating point; under `strict` also no profile, several
 *   pages without a page number, under-filled range), `too-large` (over 600 megapixels, told before decoding).
 * @throws {RangeError} The page is no whole number from 1.
 */
export async function readScan(
  file: string,
  options: ReadOptions = {},
): Promise<{
  readonly info: ScanInfo;
  readonly raster: Raster;
  readonly warnings: readonly Warning[];
}> {
  const header = await pictureHeader(file, options);
  const [sha256, decoded] = await Promise.all([sha256File(file), decodeRaster(header)]);
  await header.expectUnchanged();
  const { raster, warning } = underFilledRange(decoded, file);
  if (warning !== null && options.strict === true)
    throw new LastrinseError(
      "unsupported-format",
      `Expected 16-bit values in ${basename(file)}, received an under-filled range. ${warning.message}`,
      { remedy: "Scan again, or save the file as 8 bit.", input: file },
    );
  return {
    info: { ...header.info, sha256 },
    raster,
    warnings: warning === null ? header.warnings : [...header.warnings, warning],
  };
}
