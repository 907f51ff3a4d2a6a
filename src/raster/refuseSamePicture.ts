import { LastrinseError } from "../errors.ts";
import type { RowSource } from "./rowSource.ts";
import { samePicture } from "./samePicture.ts";

/** A picture and what it was given for. */
export interface PictureInRole {
  /** In words, such as "before scan". */
  readonly role: string;
  readonly file: string;
  /** From 1; left out where the file has one page, or the first is meant. */
  readonly page?: number | undefined;
  readonly pixels: RowSource;
}

function named({ file, page }: PictureInRole): string {
  return page === undefined ? file : `page ${page} of ${file}`;
}

/**
 * Refuses one picture given for two roles: a comparison with itself shows no change, and that would pass for good news.
 * Judged by the pixels: another name or another compression makes no other picture, another page of one file does.
 * @param remedy What to give instead.
 * @throws {LastrinseError} `same-picture`.
 */
export function refuseSamePicture(one: PictureInRole, other: PictureInRole, remedy: string): void {
  if (!samePicture(one.pixels, other.pixels)) return;
  const received =
    named(one) === named(other)
      ? `${named(one)} for both`
      : `${named(one)} and ${named(other)}, which hold the same pixels`;
  throw new LastrinseError(
    "same-picture",
    `Expected two pictures for ${one.role} and ${other.role}, received ${received}.`,
    { remedy, input: other.file },
  );
}
