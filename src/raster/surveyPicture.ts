import { open, stat, type FileHandle } from "node:fs/promises";
import { basename } from "node:path";
import { LastrinseError } from "../errors.ts";
import { damagedPicture } from "./damagedPicture.ts";
import { BYTES_TO_TELL, fileKind, type FileKind } from "./fileKind.ts";
import { foreignFile, type PictureKind } from "./foreignFile.ts";
import { tiffDirectory, type TiffDirectory } from "./tiffDirectory.ts";
import { unopenedFile } from "./unopenedFile.ts";

/** What a look at a file, without decoding, tells. */
export interface PictureSurvey {
  readonly kind: PictureKind;
  readonly pages: number;
  /** The directory of the page asked for; null where the file is no TIFF, or has no such page. */
  readonly directory: TiffDirectory | null;
  /** Size and time of last change: a file that still grows shows here. */
  readonly bytes: number;
  readonly changedMs: number;
}

function isPicture(kind: FileKind): kind is PictureKind {
  return kind === "jpeg" || kind === "png" || kind === "tiff";
}

async function kindOf(handle: FileHandle): Promise<FileKind> {
  const { buffer, bytesRead } = await handle.read(Buffer.alloc(BYTES_TO_TELL), 0, BYTES_TO_TELL, 0);
  return fileKind(buffer.subarray(0, bytesRead));
}

/**
 * Opens a file read-only and tells whether it is a picture of a kind that is read here, by its content.
 * @param page From 1.
 * @throws {LastrinseError} `unreadable`, `unsupported-format`.
 */
export async function surveyPicture(file: string, page: number): Promise<PictureSurvey> {
  const unopened = (error: unknown): never => {
    throw unopenedFile(file, error);
  };
  const found = await stat(file).catch(unopened);
  if (!found.isFile()) {
    const [received, remedy] = found.isDirectory()
      ? ["a folder", "Name one of the files in it."]
      : ["a device", "Save the picture as a file first."];
    throw new LastrinseError(
      "unreadable",
      `Expected a picture in ${basename(file)}, received ${received}.`,
      { remedy, input: file },
    );
  }
  const handle = await open(file, "r").catch(unopened);
  try {
    const kind = await kindOf(handle).catch(unopened);
    if (!isPicture(kind)) throw foreignFile(kind, file);
    const { directory, pages } =
      kind === "tiff"
        ? await tiffDirectory(handle, page).catch((error: unknown) => {
            throw damagedPicture(file, error);
          })
        : { directory: null, pages: 1 };
    return { kind, pages, directory, bytes: found.size, changedMs: found.mtimeMs };
  } finally {
    await handle.close();
  }
}
