import { readFile, stat } from "node:fs/promises";
import { basename } from "node:path";
import type { Metadata, SharpOptions } from "sharp";
import { LastrinseError, type ErrorCode, type Warning } from "../errors.ts";
import { captureTime } from "./captureTime.ts";
import { damagedPicture } from "./damagedPicture.ts";
import { jpegIsComplete } from "./jpegIsComplete.ts";
import { decodedProblem, tiffProblem, type FormProblem } from "./pictureForm.ts";
import { profileName } from "./profileName.ts";
import type { ScanInfo } from "./raster.ts";
import { sharp } from "./sharp.ts";
import { statedDpi } from "./statedDpi.ts";
import { surveyPicture, type PictureSurvey } from "./surveyPicture.ts";
import { unopenedFile } from "./unopenedFile.ts";

export interface ReadOptions {
  /** Page of a file with several, from 1. Default: the first. */
  readonly page?: number | undefined;
  /** Assumptions become refusals: no profile, several pages and none named. Default false. */
  readonly strict?: boolean | undefined;
}

/** What is known of a picture before its pixels are decoded, and how to decode them. */
export interface PictureHeader {
  readonly info: Omit<ScanInfo, "sha256">;
  readonly warnings: readonly Warning[];
  /** The image library's input, and the options that go with it. */
  readonly source: string | Buffer;
  readonly options: SharpOptions;
  /** @throws {LastrinseError} `unreadable`: the file was written to since the header was read. */
  expectUnchanged(): Promise<void>;
}

/** A wraparound cover at 1200 dpi has 205 megapixels, a poster of A2 at 600 dpi 139. 16 bit, 600 fill 3.6 GB, near the largest buffer there is. */
const MOST_PIXELS = 600e6;

const TAG_COMPRESSION = 259;
/** The two ways to hold JPEG data in a TIFF. */
const JPEG_COMPRESSIONS = [6, 7];

/**
 * How sensitive the decoder is. Both levels refuse every file that is cut short; any below would give grey rows for TIFF.
 * JPEG tells damage in its data only as warnings. TIFF and PNG warn of harmless slips in tags and profiles, and count
 * damaged data as errors.
 */
function failLevel({ kind, directory }: PictureSurvey): "warning" | "error" {
  const compression = Number(directory?.get(TAG_COMPRESSION)?.[0]);
  return kind === "jpeg" || JPEG_COMPRESSIONS.includes(compression) ? "warning" : "error";
}

/**
 * Reads and checks everything about a picture but its pixels.
 * @throws {RangeError} The page is no whole number from 1.
 * @throws {LastrinseError} `unreadable`, `unsupported-format`, `too-large`.
 */
export async function pictureHeader(
  file: string,
  { page, strict = false }: ReadOptions = {},
): Promise<PictureHeader> {
  if (page !== undefined && !(Number.isInteger(page) && page >= 1))
    throw new RangeError(`Expected a page number from 1, received ${page}.`);
  const name = basename(file);
  const refusal = (code: ErrorCode, message: string, remedy: string): LastrinseError =>
    new LastrinseError(code, message, { remedy, input: file });
  const refuseForm = (problem: FormProblem | null): void => {
    if (problem === null) return;
    const message = `Expected RGB colour, 8 or 16 bit a channel, in ${name}, received ${problem.received}.`;
    throw refusal("unsupported-format", message, problem.remedy);
  };

  const survey = await surveyPicture(file, page ?? 1);
  const { kind, pages, directory } = survey;
  if ((page ?? 1) > pages)
    throw refusal(
      "unreadable",
      `Expected page ${page} in ${name}, received a file with ${pages} page${pages === 1 ? "" : "s"}.`,
      pages === 1 ? "Leave the page out." : `Name a page from 1 to ${pages}.`,
    );
  if (strict && page === undefined && pages > 1)
    throw refusal(
      "unsupported-format",
      `Expected one page in ${name}, received ${pages} pages and no page number.`,
      `Name the page, from 1 to ${pages}, with --page.`,
    );
  if (directory !== null) refuseForm(tiffProblem(directory));

  // JPEGs are small, and their end must be looked for. The image library takes a bracket at the end of a name for options.
  const source =
    kind === "jpeg" || file.endsWith("]")
      ? await readFile(file).catch((error: unknown) => {
          throw unopenedFile(file, error);
        })
      : file;
  if (kind === "jpeg" && source instanceof Buffer && !jpegIsComplete(source))
    throw damagedPicture(file, new RangeError("JPEG without its end mark."));
  const pageOption = kind === "tiff" ? { page: (page ?? 1) - 1 } : {};
  const metadata = await sharp(source, {
    ...pageOption,
    // The limits are checked below, in words.
    limitInputPixels: false,
    limitInputChannels: false,
  })
    .metadata()
    .catch((error: unknown) => {
      throw damagedPicture(file, error);
    });
  if (metadata.width * metadata.height > MOST_PIXELS)
    throw refusal(
      "too-large",
      `Expected at most ${MOST_PIXELS / 1e6} megapixels in ${name}, received ${metadata.width} x ${metadata.height} pixels.`,
      "Scan at a lower resolution; 600 dpi shows everything that is measured here.",
    );
  refuseForm(decodedProblem(metadata));
  const info = infoOf(file, metadata, survey);
  if (strict && info.profile === null)
    throw refusal(
      "unsupported-format",
      `Expected an embedded colour profile in ${name}, received none.`,
      "Set the scanner or camera to embed its profile, or leave --strict out: then the values are read as sRGB-like.",
    );
  return {
    info,
    warnings: headerWarnings(info),
    source,
    options: {
      ...pageOption,
      ignoreIcc: true,
      failOn: failLevel(survey),
      limitInputPixels: MOST_PIXELS,
    },
    async expectUnchanged() {
      const now = await stat(file).catch(() => null);
      if (now?.size !== survey.bytes || now.mtimeMs !== survey.changedMs)
        throw refusal(
          "unreadable",
          `Expected ${name} to stay as it is while it was read, received a change.`,
          "Wait until the scanner or the copying has finished, then try again.",
        );
    },
  };
}

function infoOf(
  file: string,
  metadata: Metadata,
  { pages, directory }: PictureSurvey,
): PictureHeader["info"] {
  return {
    file,
    widthPixels: metadata.autoOrient.width,
    heightPixels: metadata.autoOrient.height,
    dpi: statedDpi(metadata, directory),
    bitDepth: metadata.depth === "ushort" ? 16 : 8,
    profile: profileName(metadata.icc),
    orientation: metadata.orientation ?? 1,
    pages,
    takenAt: captureTime(metadata.exif, directory),
  };
}

function headerWarnings({ file, profile, dpi }: PictureHeader["info"]): Warning[] {
  const name = basename(file);
  const warnings: Warning[] = [];
  if (profile === null)
    warnings.push({
      code: "no-profile",
      message: `No colour profile in ${name}: device values read as sRGB-like (sRGB assumed).`,
    });
  if (dpi === null)
    warnings.push({
      code: "no-dpi",
      message: `No credible resolution in ${name} (none, 72 dpi or nonsense): state it, or take the scale from the card.`,
    });
  return warnings;
}
