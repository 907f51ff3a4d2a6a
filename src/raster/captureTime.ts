import exifReader from "exif-reader";
import type { TiffDirectory } from "./tiffDirectory.ts";

/** EXIF itself is from 1995: an earlier time is an unset clock. */
const FIRST_YEAR = 1995;

/** A segment of a JPEG holds no more; a larger one, in a PNG, keeps the parser busy for hours. */
const LARGEST_EXIF_BYTES = 65_536;

/** Tags of the moment of capture or of digitising (EXIF), then of the picture's creation (TIFF 6.0). */
const TIFF_TIME_TAGS = [36867, 36868, 306];

/** ISO 8601 without zone of an EXIF time such as "2026:03:04 05:06:07"; null where it is none. */
function isoTime(text: string): string | null {
  const parts = /^(\d{4})[:-](\d\d)[:-](\d\d)[ T](\d\d):(\d\d):(\d\d)/.exec(text);
  if (parts === null || Number(parts[1]) < FIRST_YEAR) return null;
  const iso = `${parts[1]}-${parts[2]}-${parts[3]}T${parts[4]}:${parts[5]}:${parts[6]}`;
  const date = new Date(`${iso}Z`);
  // Refuses the 30th of February as well.
  return Number.isNaN(date.getTime()) || date.toISOString().slice(0, 19) !== iso ? null : iso;
}

function firstTime(candidates: readonly unknown[]): string | null {
  for (const value of candidates) {
    const valid = value instanceof Date && !Number.isNaN(value.getTime());
    const text = valid ? value.toISOString() : value;
    const time = typeof text === "string" ? isoTime(text) : null;
    if (time !== null) return time;
  }
  return null;
}

/**
 * When the picture was taken or digitised, on the device's own clock.
 * @param exif The EXIF block of a JPEG or PNG, if any; broken ones count as none.
 * @param directory The page's directory of a TIFF, if it is one.
 * @returns ISO 8601 without zone; null where nothing credible is told.
 */
export function captureTime(
  exif: Buffer | undefined,
  directory: TiffDirectory | null,
): string | null {
  if (directory !== null) return firstTime(TIFF_TIME_TAGS.map((tag) => directory.get(tag)));
  if (exif === undefined || exif.length > LARGEST_EXIF_BYTES) return null;
  try {
    // The time of the last change of the file (Image.DateTime) says nothing about the capture: it is not asked.
    const { Photo } = exifReader(exif);
    return firstTime([Photo?.DateTimeOriginal, Photo?.DateTimeDigitized]);
  } catch {
    return null;
  }
}
