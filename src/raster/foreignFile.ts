import { basename } from "node:path";
import { LastrinseError } from "../errors.ts";
import type { FileKind } from "./fileKind.ts";

/** The kinds that are read. */
export type PictureKind = "jpeg" | "png" | "tiff";

const SAVE_AGAIN = "Open it in an image program and save it as TIFF or PNG.";

/** Each other kind in words, and what to do about it. */
const FOREIGN: Readonly<Record<Exclude<FileKind, PictureKind>, readonly [string, string]>> = {
  "camera-raw": [
    "an undeveloped camera raw file",
    "Develop it with all automatic corrections off and save it as TIFF.",
  ],
  heic: [
    "a HEIC picture, as phones write it",
    "Save it as JPEG or TIFF, or set the phone's camera to JPEG and take the picture again.",
  ],
  avif: ["an AVIF picture", SAVE_AGAIN],
  webp: ["a WebP picture", SAVE_AGAIN],
  gif: ["a GIF picture", SAVE_AGAIN],
  bmp: ["a BMP picture", SAVE_AGAIN],
  "jpeg-2000": ["a JPEG 2000 picture", SAVE_AGAIN],
  "jpeg-xl": ["a JPEG XL picture", SAVE_AGAIN],
  pdf: ["a PDF document", "Scan to TIFF, PNG or JPEG instead of PDF."],
  zip: ["a ZIP archive", "Unpack it first."],
  text: ["a text file", "Check the name: this file holds text, not a picture."],
  empty: ["an empty file", "Scan or copy the picture again: nothing was written into this file."],
  unknown: ["a file of an unknown kind", SAVE_AGAIN],
};

/** The refusal of a file that is no picture of a kind that is read. */
export function foreignFile(kind: Exclude<FileKind, PictureKind>, file: string): LastrinseError {
  const [received, remedy] = FOREIGN[kind];
  return new LastrinseError(
    kind === "empty" ? "unreadable" : "unsupported-format",
    `Expected a colour picture (TIFF, PNG or JPEG) in ${basename(file)}, received ${received}.`,
    { remedy, input: file },
  );
}
