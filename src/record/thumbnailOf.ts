import { sharp } from "../raster/sharp.ts";
import type { EventInput } from "./event.ts";
import { unchangedInput } from "./openRecord.ts";

/** Enough to see what was photographed, small enough for a page with many. */
const WIDTH = 200;
const QUALITY = 82;

/** A small upright JPEG of a recorded photo; null where the file moved, changed or can't be shown. */
export async function thumbnailOf(folder: string, input: EventInput): Promise<Uint8Array | null> {
  try {
    const path = await unchangedInput(folder, input);
    return await sharp(path)
      .autoOrient()
      .resize({ width: WIDTH, height: 2 * WIDTH, fit: "inside", withoutEnlargement: true })
      .flatten({ background: "#ffffff" })
      .toColourspace("srgb")
      .jpeg({ quality: QUALITY, chromaSubsampling: "4:4:4" })
      .toBuffer();
  } catch {
    return null;
  }
}
