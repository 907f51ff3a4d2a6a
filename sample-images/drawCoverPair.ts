import { createHash } from "node:crypto";
import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import sharp from "sharp";
import type { Raster } from "../src/raster/raster.ts";
import { renderPair } from "./scene/renderPair.ts";
import { SAMPLE_PAIR } from "./scene/samplePair.ts";
import { sampleTruth } from "./scene/sampleTruth.ts";

/** PNG with its resolution (pHYs); the same pixels give the same bytes. */
function encodePng(raster: Raster, dpi: number): Promise<Buffer> {
  const { width, height } = raster;
  return sharp(raster.data as Uint8Array, { raw: { width, height, channels: 3 } })
    .withDensity(dpi)
    .png({ compressionLevel: 9, adaptiveFiltering: true })
    .toBuffer();
}

/**
 * Draws `before.png`, `after.png` and `truth.json` of the samples.
 * @param directory Where to; files there are replaced.
 * @returns The names written.
 */
export async function drawCoverPair(directory: string): Promise<string[]> {
  const pair = renderPair(SAMPLE_PAIR);
  const before = await encodePng(pair.before, pair.dpiBefore);
  const after = await encodePng(pair.after, pair.dpiAfter);
  const sha256 = (bytes: Buffer): string => createHash("sha256").update(bytes).digest("hex");
  const truth = {
    ...sampleTruth(SAMPLE_PAIR, pair.truth),
    files: { "before.png": sha256(before), "after.png": sha256(after) },
  };
  await writeFile(join(directory, "before.png"), before);
  await writeFile(join(directory, "after.png"), after);
  await writeFile(join(directory, "truth.json"), `${JSON.stringify(truth, null, 2)}\n`);
  return ["before.png", "after.png", "truth.json"];
}
