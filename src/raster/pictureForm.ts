import type { Metadata } from "sharp";
import type { TiffDirectory } from "./tiffDirectory.ts";

/** Why a picture can't serve for colour work, in words, and what to do about it. */
export interface FormProblem {
  readonly received: string;
  readonly remedy: string;
}

const SCAN_IN_COLOUR = "Scan again in colour, 24 or 48 bit RGB, with automatic corrections off.";
const SAVE_AS_RGB =
  "Scan again in RGB, or save it as RGB, 8 or 16 bit a channel, as TIFF or PNG: a converted file measures the conversion too.";
const DEVELOP = "Develop it with all automatic corrections off and save it as TIFF.";

const GREY: FormProblem = { received: "a greyscale picture", remedy: SCAN_IN_COLOUR };
const CMYK: FormProblem = { received: "a CMYK picture", remedy: SAVE_AS_RGB };
const LAB: FormProblem = { received: "a picture in Lab colour", remedy: SAVE_AS_RGB };
const RAW: FormProblem = { received: "an undeveloped camera raw file", remedy: DEVELOP };

/** Tags of TIFF 6.0 and of the open raw format built on it. */
const TAG_NEW_SUBFILE_TYPE = 254;
const TAG_SUBFILE_TYPE = 255;
const TAG_BITS = 258;
const TAG_PHOTOMETRIC = 262;
const TAG_SAMPLE_FORMAT = 339;
const TAG_RAW_VERSION = 50706;

const REDUCED_NEW = 1;
const REDUCED_OLD = 2;
const SAMPLE_UNSIGNED = 1;
/** "Undefined": read as unsigned, as TIFF 6.0 advises. */
const SAMPLE_UNDEFINED = 4;
const PHOTOMETRIC_RGB = 2;
const PHOTOMETRIC_PALETTE = 3;
const PHOTOMETRIC_YCBCR = 6;

const PHOTOMETRIC_PROBLEMS: ReadonlyMap<number, FormProblem> = new Map([
  [0, GREY],
  [1, GREY],
  [5, CMYK],
  [8, LAB],
  [9, LAB],
  [10, LAB],
  [32803, RAW],
  [34892, RAW],
]);

function otherForm(received: string): FormProblem {
  return { received, remedy: SAVE_AS_RGB };
}

/**
 * What speaks against a TIFF page by its directory. The decoder turns many of these into something that looks right.
 * @returns null where nothing does.
 */
export function tiffProblem(directory: TiffDirectory): FormProblem | null {
  const first = (tag: number): number | undefined => {
    const value = directory.get(tag)?.[0];
    return typeof value === "number" ? value : undefined;
  };
  if (directory.has(TAG_RAW_VERSION)) return RAW;
  if (
    ((first(TAG_NEW_SUBFILE_TYPE) ?? 0) & REDUCED_NEW) !== 0 ||
    first(TAG_SUBFILE_TYPE) === REDUCED_OLD
  )
    return {
      received: "a reduced-size preview",
      remedy:
        "Name the page that holds the picture with --page; a camera raw file must be developed to TIFF first.",
    };
  const photometric = first(TAG_PHOTOMETRIC) ?? PHOTOMETRIC_RGB;
  const problem = PHOTOMETRIC_PROBLEMS.get(photometric);
  if (problem !== undefined) return problem;
  if (![PHOTOMETRIC_RGB, PHOTOMETRIC_PALETTE, PHOTOMETRIC_YCBCR].includes(photometric))
    return otherForm("a TIFF in another colour space than RGB");
  const format = first(TAG_SAMPLE_FORMAT) ?? SAMPLE_UNSIGNED;
  if (format !== SAMPLE_UNSIGNED && format !== SAMPLE_UNDEFINED)
    return otherForm(
      format === 3 ? "a picture of floating-point values" : "a picture of signed values",
    );
  const bits = first(TAG_BITS) ?? 1;
  if (photometric !== PHOTOMETRIC_PALETTE && bits !== 8 && bits !== 16)
    return otherForm(`a picture of ${bits} bits a channel`);
  return null;
}

/**
 * What speaks against a picture by what the decoder says of it.
 * @returns null where nothing does: unsigned RGB, 8 or 16 bit, with or without alpha.
 */
export function decodedProblem({ space, channels, depth }: Metadata): FormProblem | null {
  if (space === "cmyk") return CMYK;
  if (space === "lab" || space === "labs") return LAB;
  if (space === "b-w" || space === "grey16" || channels < 3) return GREY;
  if (channels > 4) return otherForm(`a picture of ${channels} channels`);
  if (space === "srgb" && depth === "uchar") return null;
  if (space === "rgb16" && depth === "ushort") return null;
  return otherForm(`a picture in the form ${space}, ${depth}`);
}
