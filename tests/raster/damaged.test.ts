import { writeFileSync } from "node:fs";
import { join } from "node:path";
import sharp from "sharp";
import { describe, expect, test } from "vitest";
import { LastrinseError } from "../../src/errors.ts";
import { readScan } from "../../src/raster/readScan.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";
import { tiffBytes, wordBytes } from "./bytes.ts";
import { seededRandom } from "../../src/numeric/random.ts";

const folder = temporaryFolder();
const SIZE = { width: 120, height: 90 };

/** Shades with noise: nothing that compresses to almost nothing. */
function shades(): Buffer {
  const random = seededRandom(21);
  return Buffer.from(
    Uint8Array.from({ length: 3 * SIZE.width * SIZE.height }, (_, i) => {
      return Math.floor(i / 3 / SIZE.width) + random.below(120);
    }),
  );
}

const BYTES = shades();
const WORDS = Uint16Array.from(BYTES, (byte) => 257 * byte);
const eight = sharp(BYTES, { raw: { ...SIZE, channels: 3 } });
const sixteen = sharp(WORDS, { raw: { ...SIZE, channels: 3 } }).toColourspace("rgb16");
const PAGE = { ...SIZE, data: BYTES };
const PAGE16 = { ...SIZE, bits: 16, data: wordBytes(WORDS, false) };

const FORMATS: Readonly<Record<string, () => Promise<Buffer> | Buffer>> = {
  jpeg: () => eight.clone().jpeg({ quality: 92, chromaSubsampling: "4:4:4" }).toBuffer(),
  "progressive jpeg": () => eight.clone().jpeg({ progressive: true }).toBuffer(),
  png: () => eight.clone().png().toBuffer(),
  "interlaced png": () => eight.clone().png({ progressive: true }).toBuffer(),
  "16-bit png": () => sixteen.clone().png().toBuffer(),
  "tiff, directory last": () => tiffBytes([PAGE]),
  "tiff, directory first": () => tiffBytes([PAGE], { directoryFirst: true }),
  "16-bit tiff, directory first": () => tiffBytes([PAGE16], { directoryFirst: true }),
  "lzw tiff": () => eight.clone().tiff({ compression: "lzw" }).toBuffer(),
  "deflate tiff": () => eight.clone().tiff({ compression: "deflate" }).toBuffer(),
  "16-bit deflate tiff": () => sixteen.clone().tiff({ compression: "deflate" }).toBuffer(),
  "tiled tiff": () =>
    eight.clone().tiff({ compression: "deflate", tile: true, tileWidth: 64, tileHeight: 64 }).toBuffer(), // prettier-ignore
  "jpeg in tiff": () => eight.clone().tiff({ compression: "jpeg" }).toBuffer(),
  bigtiff: () => eight.clone().tiff({ compression: "none", bigtiff: true }).toBuffer(),
};

/** The pixels read, or null where the file was refused as damaged. */
async function pixelsOf(name: string, bytes: Buffer): Promise<Uint8Array | Uint16Array | null> {
  const file = join(folder, name);
  writeFileSync(file, bytes);
  try {
    return (await readScan(file)).raster.data;
  } catch (error) {
    expect(error).toBeInstanceOf(LastrinseError);
    expect((error as LastrinseError).code).toMatch(/unreadable|unsupported-format/);
    return null;
  }
}

/** Comparisons that don't print every pixel when they fail. */
const isNull = (pixels: unknown): boolean => pixels === null;
const same = (a: ArrayLike<number>, b: ArrayLike<number> | null): boolean =>
  a.length === b?.length && Array.prototype.every.call(a, (value, i) => value === b[i]);

const CUTS = 20;

describe.each(Object.entries(FORMATS))("%s", (_name, make) => {
  test("cut short anywhere: refused, or every pixel right, never grey rows", async () => {
    const bytes = await make();
    const whole = await pixelsOf("whole", bytes);
    expect(whole === null).toBe(false);
    let refused = 0;
    for (let cut = 0; cut < CUTS; cut++) {
      // Over the whole file, then byte by byte before its end.
      const length = cut < 14 ? Math.floor(((cut + 1) * bytes.length) / 15) : bytes.length - 20 + cut; // prettier-ignore
      const pixels = await pixelsOf("cut", bytes.subarray(0, length));
      if (pixels === null) refused++;
      else expect(same(pixels, whole)).toBe(true);
    }
    // PNG ends in 12 bytes, BigTIFF in a directory's padding, that hold nothing of the picture.
    expect(refused).toBeGreaterThanOrEqual(14);
  });
});

/**
 * Share of the file that is cut out of its middle. PNG and deflate carry check sums. JPEG finds its step again after a gap and
 * tells only that data are missing at the end, and the decoder passes that on for all but the last blocks: a gap of a few
 * hundred bytes goes unseen. Uncompressed samples carry nothing to tell damage by.
 */
test.each([
  ["png", 0.005],
  ["interlaced png", 0.005],
  ["16-bit png", 0.005],
  ["deflate tiff", 0.005],
  ["16-bit deflate tiff", 0.005],
  ["jpeg", 0.2],
  ["progressive jpeg", 0.2],
  ["jpeg in tiff", 0.2],
])("%s: a piece missing from the middle is refused", async (name, share) => {
  const bytes = await FORMATS[name]();
  for (const at of [0.3, 0.4, 0.5, 0.6]) {
    const from = Math.floor(at * bytes.length);
    const holed = Buffer.concat([
      bytes.subarray(0, from),
      bytes.subarray(from + Math.ceil(share * bytes.length)),
    ]);
    expect(isNull(await pixelsOf("holed", holed)), `at ${at}`).toBe(true);
  }
});

test.each(["jpeg", "progressive jpeg", "png", "deflate tiff"])(
  "%s: an unfinished copy, the rest of its bytes zero, is refused",
  async (name) => {
    const bytes = await FORMATS[name]();
    for (const at of [0.3, 0.6, 0.9])
      expect(isNull(await pixelsOf("zeros", Buffer.from(bytes).fill(0, Math.floor(at * bytes.length))))).toBe(true); // prettier-ignore
  },
);

test("a JPEG that ends early with a proper end mark is refused", async () => {
  const bytes = await FORMATS.jpeg();
  for (const at of [0.3, 0.6, 0.8]) {
    const short = Buffer.concat([bytes.subarray(0, at * bytes.length), Buffer.from([0xff, 0xd9])]);
    expect(isNull(await pixelsOf("short", short)), `at ${at}`).toBe(true);
  }
});

test("directories that point in a circle are refused", async () => {
  const bytes = tiffBytes([PAGE, PAGE]);
  const first = bytes.readUInt32LE(4);
  const second = bytes.readUInt32LE(first + 2 + 12 * bytes.readUInt16LE(first));
  bytes.writeUInt32LE(first, second + 2 + 12 * bytes.readUInt16LE(second));
  expect(isNull(await pixelsOf("circle.tif", bytes))).toBe(true);
});
