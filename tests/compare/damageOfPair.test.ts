import type { Box } from "../../src/grid/box.ts";
import { join } from "node:path";
import sharp from "sharp";
import { afterAll, describe, expect, test } from "vitest";
import type { PairOptions } from "../../sample-images/scene/pairOptions.ts";
import { renderPair } from "../../sample-images/scene/renderPair.ts";
import { loadCard } from "../../src/card/loadCard.ts";
import { compareScans } from "../../src/compare/compareScans.ts";
import type { CompareResult } from "../../src/results/compareResult.ts";
import { closeVision } from "../../src/vision/pool.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";

const folder = temporaryFolder();
const DPI = 110;
/** A small cover at low resolution, for speed: margins of 4.5 mm, cells of 0.23 mm. */
const SMALL: Partial<PairOptions> = {
  widthMm: 120,
  heightMm: 175,
  dpiBefore: DPI,
  dpiAfter: DPI,
  inkLoss: { yellow: 0, red: 0, blue: 0, black: 0 },
};

/** Scans a pair to files, compares them and gives the result with a way from mm of the before frame to pixels. */
async function compared(name: string, options: Partial<PairOptions>) {
  const { before, after, truth } = renderPair({ ...SMALL, ...options });
  const files = await Promise.all(
    [before, after].map(async ({ data, width, height }, i) => {
      const file = join(folder, `${name}-${String(i)}.png`);
      await sharp(data, { raw: { width, height, channels: 3 } })
        .png({ compressionLevel: 1 })
        .toFile(file);
      return file;
    }),
  );
  const { result } = await compareScans({
    before: { file: files[0], state: "dry" },
    after: { file: files[1], state: "dry" },
    card: await loadCard(),
    dpi: DPI,
  });
  const [[left, top], , [right, bottom]] = truth.sheetCornersBefore;
  // The sheet lies turned by 0.4 degrees: within 1 mm of its bounding box.
  const onSheet = (box: Box): Box => {
    const x = (120 / (right - left)) * 1;
    const y = (175 / (bottom - top)) * 1;
    return [(box[0] - left) * x, (box[1] - top) * y, box[2] * x, box[3] * y];
  };
  return { damage: result.damage, inks: result.inks, onSheet };
}

function lost(inks: CompareResult["inks"]): string[] {
  return inks.filter(({ verdict }) => verdict === "ink-lost").map(({ id }) => id);
}

afterAll(closeVision);

describe("damage drawn into a scanned pair, whole compare", () => {
  test("a tide line and a bleed of 2 mm are found, placed and measured; no ink is called lost", async () => {
    const { damage, inks, onSheet } = await compared("damaged", {
      seed: 21,
      tideLine: { yMm: 52, widthMm: 1.5, strength: 0.5 },
      bleed: { ink: "red", reachMm: 2, boxMm: [0, 8, 12, 34] },
    });
    expect(damage.tideLines.length).toBeGreaterThan(0);
    for (const { boxPixels, widthMm, deltaB } of damage.tideLines) {
      const [, y, , height] = onSheet(boxPixels);
      // It wanders by 9 mm around a slope of 6 mm from its height at the left.
      expect(y).toBeGreaterThan(52 - 17);
      expect(y + height).toBeLessThan(52 + 12);
      // Within half; its strength is flatter than a bell on one side, which makes it 6 % wider.
      expect(Math.abs(widthMm - 1.5)).toBeLessThan(0.75);
      expect(deltaB).toBeGreaterThan(0.5);
    }
    expect(damage.bleeds.map(({ ink }) => ink)).toEqual(["red"]);
    const [bleed] = damage.bleeds;
    const [x, y, width, height] = onSheet(bleed.boxPixels);
    // The red band begins 4.5 mm from the left.
    expect(x).toBeGreaterThan(0);
    expect(x + width).toBeLessThan(5.5);
    expect(Math.min(y + height, 34) - Math.max(y, 8)).toBeGreaterThan(0.6 * 26);
    expect(Math.abs(bleed.reachMm - 2)).toBeLessThan(1);
    expect(lost(inks)).toEqual([]);
  });

  test("a clean pair raises none, and no ink is called lost", async () => {
    const { damage, inks } = await compared("clean", { seed: 22 });
    expect(damage.tideLines).toEqual([]);
    expect(damage.bleeds).toEqual([]);
    // Not measured (null) on so little paper, or no more than the toned rim makes.
    expect(damage.unevenCleaning ?? 0).toBeLessThan(0.3);
    expect(damage.dullBlacks).toBe(0);
    expect(lost(inks)).toEqual([]);
  });
});
