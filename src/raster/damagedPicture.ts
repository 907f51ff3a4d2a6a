import { basename } from "node:path";
import { LastrinseError } from "../errors.ts";

/** The refusal of a picture that the decoder can't read to its end. */
export function damagedPicture(file: string, cause: unknown): LastrinseError {
  return new LastrinseError(
    "unreadable",
    `Expected complete picture data in ${basename(file)}, received a file that is cut short, damaged or of a rare kind.`,
    {
      remedy:
        "Copy it again from the scanner or the camera. If that doesn't help, scan again and save as TIFF: a program that still opens this file may hide the damage.",
      input: file,
      cause,
    },
  );
}
