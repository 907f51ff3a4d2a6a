import { LastrinseError } from "../errors.ts";
import { locateBacking } from "../jar/place/locateBacking.ts";
import { readScan } from "../raster/readScan.ts";
import type { Side } from "./treatment.ts";
import type { KeptSurvey } from "./surveyOf.ts";

async function showsJarBacking(file: string): Promise<boolean> {
  try {
    locateBacking((await readScan(file)).raster, file);
    return true;
  } catch (error) {
    if (error instanceof LastrinseError && error.code === "station-not-found") return false;
    throw error;
  }
}

/**
 * Refuses what was taken for a before scan and is none: a photo of the jar before its printed backing, or a front on which no
 * ink was found, such as a blotter. The other sides of a cover may be bare. Scanners state their resolution, so only a picture
 * without one is searched for the backing.
 * @throws {LastrinseError} `frames-differ`.
 */
export async function refuseOtherPicture(
  file: string,
  side: Side,
  { inks, warnings }: KeptSurvey,
): Promise<void> {
  const refuse = (received: string): never => {
    throw new LastrinseError(
      "frames-differ",
      `Expected a scan of the printed cover in ${file}, received ${received}.`,
      {
        remedy:
          "Give the scan of the dry cover with the card in the frame; jar photos belong to the command bath, blotter photos to blot.",
        input: file,
      },
    );
  };
  if (warnings.some(({ code }) => code === "no-dpi") && (await showsJarBacking(file)))
    refuse("a photo of the jar before its printed backing");
  if (side === "front" && inks.length === 0) refuse("a picture in which no ink was found");
}
