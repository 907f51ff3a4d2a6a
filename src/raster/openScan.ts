import { basename } from "node:path";
import { LastrinseError, type Warning } from "../errors.ts";
import { pictureHeader, type ReadOptions } from "./pictureHeader.ts";
import type { ScanInfo } from "./raster.ts";
import { sha256File } from "./sha256File.ts";
import { storePicture, type StoredPicture } from "./storePicture.ts";
import { underFilledRange } from "./underFilledRange.ts";

/** A picture that was read, and what is to be said of it. */
export interface OpenScan {
  readonly info: ScanInfo;
  /** To be released by whoever opened the scan. */
  readonly pixels: StoredPicture;
  readonly warnings: readonly Warning[];
}

/**
 * Reads a scan or photo for measuring: device values as the file holds them, upright, RGB, 8 or 16 bit.
 * The file is opened read-only. What it is goes by its content (TIFF, BigTIFF, PNG, JPEG), never by its name's ending.
 * @param file Path.
 * @returns `pixels.bitDepth` is 8 where a 16-bit file turned out to hold 8-bit values (`info.bitDepth` stays 16). Warnings:
 *   `no-profile`, `no-dpi`, `under-filled-range`.
 * @throws {LastrinseError} `unreadable` (not there, a folder, no permission, empty, cut short, damaged, no such page),
 *   `unsupported-format` (other file formats; greyscale, CMYK, Lab, floating point; under `strict` also no profile, several
 *   pages without a page number, under-filled range), `too-large` (over 600 megapixels, told before decoding).
 * @throws {RangeError} The page is no whole number from 1.
 */
export async function openScan(file: string, options: ReadOptions = {}): Promise<OpenScan> {
  const header = await pictureHeader(file, options);
  const [hashed, decoded] = await Promise.allSettled([sha256File(file), storePicture(header)]);
  if (decoded.status === "rejected") throw decoded.reason;
  try {
    if (hashed.status === "rejected") throw hashed.reason;
    await header.expectUnchanged();
    const { pixels, warning } = underFilledRange(decoded.value, file);
    if (warning !== null && options.strict === true)
      throw new LastrinseError(
        "unsupported-format",
        `Expected 16-bit values in ${basename(file)}, received an under-filled range. ${warning.message}`,
        { remedy: "Scan again, or save the file as 8 bit.", input: file },
      );
    return {
      info: { ...header.info, sha256: hashed.value },
      pixels,
      warnings: warning === null ? header.warnings : [...header.warnings, warning],
    };
  } catch (error) {
    decoded.value.release();
    throw error;
  }
}
