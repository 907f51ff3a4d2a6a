import { readdirSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import sharp from "sharp";
import { afterEach, expect, test } from "vitest";
import { decodeRaster } from "../../src/raster/decodeRaster.ts";
import { pictureHeader } from "../../src/raster/pictureHeader.ts";
import { storePicture } from "../../src/raster/storePicture.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";
import { noiseBytes, noiseWords } from "./bytes.ts";

const folder = temporaryFolder();
const SIZE = { width: 37, height: 150, channels: 3 as const };
const VALUES = SIZE.width * SIZE.height * 3;

/** Names of scratch files of this process. */
const scratch = (): string[] =>
  readdirSync(tmpdir()).filter((name) =>
    name.startsWith(`lastrinse-scratch-${String(process.pid)}-`),
  );

afterEach(() => {
  expect(scratch()).toEqual([]);
});

async function written(bits: 8 | 16, orientation: number): Promise<string> {
  const file = join(folder, `${String(bits)}-${String(orientation)}.tif`);
  const data = bits === 8 ? noiseBytes(VALUES, 1) : noiseWords(VALUES, 1);
  const picture = sharp(data, { raw: SIZE });
  if (bits === 16) picture.toColourspace("rgb16");
  await picture.withMetadata({ orientation }).tiff({ compression: "deflate" }).toFile(file);
  return file;
}

test.each([
  [8, 1],
  [16, 1],
  [8, 6],
  [16, 3],
] as const)(
  "%i bit, orientation %i: the same pixels through a scratch file",
  async (bits, turn) => {
    const header = await pictureHeader(await written(bits, turn));
    const expected = await decodeRaster(header);
    const stored = await storePicture(header, 0);
    expect([stored.width, stored.height, stored.bitDepth]).toEqual([
      expected.width,
      expected.height,
      bits,
    ]);
    const row = 3 * expected.width;
    // In bands, out of order, as readers do.
    for (const [first, count] of [
      [7, 20],
      [0, 3],
      [expected.height - 1, 1],
    ])
      expect(stored.rows(first, count)).toEqual(
        expected.data.subarray(first * row, (first + count) * row),
      );
    expect(() => stored.rows(expected.height, 1)).toThrow(RangeError);
    stored.release();
    stored.release();
    expect(() => stored.rows(0, 1)).toThrow("still stored");
  },
);

test("a file that is cut short is refused, and leaves no scratch file", async () => {
  const whole = await written(8, 1);
  const file = join(folder, "cut.png");
  const png = await sharp(whole).png().toBuffer();

  writeFileSync(file, png.subarray(0, png.length / 2));
  const header = await pictureHeader(file);
  await expect(storePicture(header, 0)).rejects.toMatchObject({ code: "unreadable" });
});
