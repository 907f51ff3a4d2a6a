import { createHash } from "node:crypto";
import { readFileSync, statSync, utimesSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import sharp from "sharp";
import { beforeAll, describe, expect, test } from "vitest";
import type { Raster } from "../../src/raster/raster.ts";
import { readScan } from "../../src/raster/readScan.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";
import {
  iccChunk,
  noiseBytes,
  noiseWords,
  pngBytes,
  pngChunk,
  tiffBytes,
  wordBytes,
  type Field,
  type TiffPage,
} from "./bytes.ts";

const folder = temporaryFolder();

function written(name: string, bytes: Uint8Array): string {
  const file = join(folder, name);
  writeFileSync(file, bytes);
  return file;
}

const WIDTH = 19;
const HEIGHT = 13;
const BYTES = noiseBytes(WIDTH * HEIGHT * 3, 1);
const WORDS = noiseWords(WIDTH * HEIGHT * 3, 2);
const PAGE: TiffPage = { width: WIDTH, height: HEIGHT, data: BYTES };
const SIZE = { width: WIDTH, height: HEIGHT };
const PAGE16: TiffPage = { ...SIZE, bits: 16, data: wordBytes(WORDS, false) };

/** Four bytes, big-endian. */
function uint32(value: number): Buffer {
  const bytes = Buffer.alloc(4);
  bytes.writeUInt32BE(value);
  return bytes;
}

const DPI_300: Record<number, Field> = {
  282: [5, [300, 1]],
  283: [5, [300, 1]],
  296: [3, [2]],
};

/** The profile of a wide-gamut display that the image library brings. */
let wideProfile: Buffer;

beforeAll(async () => {
  const tagged = await sharp(BYTES, { raw: { ...SIZE, channels: 3 } })
    .withIccProfile("p3")
    .png()
    .toBuffer();
  const { icc } = await sharp(tagged).metadata();
  if (icc === undefined) throw new Error("The image library embedded no profile.");
  wideProfile = icc;
});

describe("device values (left to itself the decoder changes each of these)", () => {
  test("8 and 16 bit, from TIFF of both byte orders and from PNG, come back exactly", async () => {
    const eight: Raster = { ...SIZE, bitDepth: 8, data: new Uint8Array(BYTES) };
    const sixteen: Raster = { ...SIZE, bitDepth: 16, data: WORDS };
    const cases: readonly (readonly [string, Buffer, Raster])[] = [
      ["8.tif", tiffBytes([PAGE]), eight],
      ["8-mm.tif", tiffBytes([PAGE], { bigEndian: true }), eight],
      ["8-first.tif", tiffBytes([PAGE], { directoryFirst: true }), eight],
      ["8.png", pngBytes({ ...SIZE, data: BYTES }), eight],
      ["16.tif", tiffBytes([PAGE16]), sixteen],
      [
        "16-mm.tif",
        tiffBytes([{ ...PAGE16, data: wordBytes(WORDS, true) }], { bigEndian: true }),
        sixteen,
      ],
      ["16.png", pngBytes({ ...SIZE, bits: 16, data: wordBytes(WORDS, true) }), sixteen],
    ];
    for (const [name, bytes, raster] of cases) {
      const scan = await readScan(written(name, bytes));
      expect(scan.raster, name).toEqual(raster);
      expect(scan.info, name).toMatchObject({
        widthPixels: WIDTH,
        heightPixels: HEIGHT,
        bitDepth: raster.bitDepth,
      });
    }
  });

  test("the same pixels give the same raster from every lossless way to store them", async () => {
    const eight = sharp(BYTES, { raw: { ...SIZE, channels: 3 } });
    const sixteen = sharp(WORDS, { raw: { ...SIZE, channels: 3 } }).toColourspace("rgb16");
    for (const [bits, picture] of [
      [8, eight],
      [16, sixteen],
    ] as const)
      for (const [name, encoded] of [
        ["none", picture.clone().tiff({ compression: "none" })],
        ["big", picture.clone().tiff({ compression: "none", bigtiff: true })],
        ["lzw", picture.clone().tiff({ compression: "lzw" })],
        ["deflate", picture.clone().tiff({ compression: "deflate", predictor: "horizontal" })],
        ["tiles", picture.clone().tiff({ compression: "deflate", tile: true, tileWidth: 16, tileHeight: 16 })], // prettier-ignore
        ["png", picture.clone().png()],
        ["interlaced-png", picture.clone().png({ progressive: true })],
      ] as const) {
        const { raster } = await readScan(
          written(`same-${name}-${bits}`, await encoded.toBuffer()),
        );
        expect(raster.bitDepth, name).toBe(bits);
        expect(raster.data, name).toEqual(bits === 8 ? new Uint8Array(BYTES) : WORDS);
      }
  });

  test("an embedded profile is named and never applied", async () => {
    const words = wordBytes(WORDS, true);
    const tag: Record<number, Field> = { 34675: [7, [...wideProfile]] };
    const chunks = [iccChunk(wideProfile)];
    const cases: readonly (readonly [string, Buffer, Uint8Array | Uint16Array])[] = [
      ["p8.png", pngBytes({ ...SIZE, data: BYTES, chunks }), new Uint8Array(BYTES)],
      ["p16.png", pngBytes({ ...SIZE, bits: 16, data: words, chunks }), WORDS],
      ["p8.tif", tiffBytes([{ ...PAGE, fields: tag }]), new Uint8Array(BYTES)],
      ["p16.tif", tiffBytes([{ ...PAGE16, fields: tag }]), WORDS],
    ];
    for (const [name, bytes, data] of cases) {
      const file = written(name, bytes);
      // The profile is really there: by itself the decoder would convert.
      const converted = await sharp(file).raw().toBuffer();
      expect(Buffer.compare(converted, BYTES), name).not.toBe(0);
      const { info, raster, warnings } = await readScan(file);
      expect(raster.data, name).toEqual(data);
      expect(info.profile, name).toMatch(/\w/);
      expect(warnings.map(({ code }) => code)).not.toContain("no-profile");
    }
  });

  test("a 16-bit ramp keeps all its 65536 values", async () => {
    const ramp = Uint16Array.from({ length: 65536 * 3 }, (_, i) => Math.floor(i / 3));
    const size = { width: 256, height: 256, bits: 16 };
    for (const [name, bytes] of [
      ["ramp.png", pngBytes({ ...size, data: wordBytes(ramp, true) })],
      ["ramp.tif", tiffBytes([{ ...size, data: wordBytes(ramp, false) }])],
    ] as const) {
      const { raster } = await readScan(written(name, bytes));
      expect(new Set(raster.data).size).toBe(65536);
    }
  });

  test("alpha is left off without touching the colour under it", async () => {
    const rgba = Buffer.alloc(WIDTH * HEIGHT * 4);
    const rgba16 = new Uint16Array(WIDTH * HEIGHT * 4);
    for (let i = 0; i < WIDTH * HEIGHT; i++) {
      rgba.set(BYTES.subarray(3 * i, 3 * i + 3), 4 * i);
      rgba[4 * i + 3] = i % 256;
      rgba16.set(WORDS.subarray(3 * i, 3 * i + 3), 4 * i);
      rgba16[4 * i + 3] = 257 * (i % 256);
    }
    const unassociated: Record<number, Field> = { 338: [3, [2]] };
    const alphaPage = { ...PAGE, samples: 4, data: rgba, fields: unassociated };
    const alphaPage16 = {
      ...PAGE16,
      samples: 4,
      data: wordBytes(rgba16, false),
      fields: unassociated,
    };
    const cases: readonly (readonly [string, Buffer, Uint8Array | Uint16Array])[] = [
      ["alpha.png", pngBytes({ ...SIZE, colourType: 6, data: rgba }), new Uint8Array(BYTES)],
      ["alpha.tif", tiffBytes([alphaPage]), new Uint8Array(BYTES)],
      [
        "alpha16.png",
        pngBytes({ ...SIZE, bits: 16, colourType: 6, data: wordBytes(rgba16, true) }),
        WORDS,
      ],
      ["alpha16.tif", tiffBytes([alphaPage16]), WORDS],
    ];
    for (const [name, bytes, data] of cases)
      expect((await readScan(written(name, bytes))).raster.data, name).toEqual(data);
  });

  test("a palette is expanded to the colours it names", async () => {
    const palette = noiseBytes(3 * 16, 3);
    const indices = Buffer.from(Uint8Array.from(BYTES.subarray(0, WIDTH * HEIGHT), (b) => b % 16));
    const expected = Uint8Array.from({ length: 3 * indices.length }, (_, i) => {
      return palette[3 * indices[Math.floor(i / 3)] + (i % 3)];
    });
    const chunks = [pngChunk("PLTE", palette)];
    const file = written("p.png", pngBytes({ ...SIZE, colourType: 3, data: indices, chunks }));
    expect((await readScan(file)).raster.data).toEqual(expected);
  });
});

/**
 * Where the stored pixel (row, column) stands in the upright picture of `width` x `height` (EXIF 2.32, tag 274: which visual
 * side the 0th row and the 0th column are).
 */
const UPRIGHT: Readonly<
  Record<number, (row: number, column: number, right: number, bottom: number) => [number, number]>
> = {
  1: (row, column) => [column, row],
  2: (row, column, right) => [right - column, row],
  3: (row, column, right, bottom) => [right - column, bottom - row],
  4: (row, column, _right, bottom) => [column, bottom - row],
  5: (row, column) => [row, column],
  6: (row, column, right) => [right - row, column],
  7: (row, column, right, bottom) => [right - row, bottom - column],
  8: (row, column, _right, bottom) => [row, bottom - column],
};

describe("orientation", () => {
  /** The upright noise as a camera held in that way would store it. */
  function stored(orientation: number): { width: number; height: number; data: Buffer } {
    const turned = orientation >= 5;
    const width = turned ? HEIGHT : WIDTH;
    const height = turned ? WIDTH : HEIGHT;
    const data = Buffer.alloc(BYTES.length);
    for (let row = 0; row < height; row++)
      for (let column = 0; column < width; column++) {
        const [x, y] = UPRIGHT[orientation](row, column, WIDTH - 1, HEIGHT - 1);
        BYTES.copy(data, 3 * (row * width + column), 3 * (y * WIDTH + x), 3 * (y * WIDTH + x) + 3);
      }
    return { width, height, data };
  }

  test.each([1, 2, 3, 4, 5, 6, 7, 8])("EXIF orientation %i is undone and recorded", async (o) => {
    const picture = stored(o);
    const tiff = tiffBytes([{ ...picture, fields: { 274: [3, [o]] } }]);
    const words = Uint16Array.from(picture.data, (byte) => 257 * byte);
    const tiff16 = tiffBytes([
      { ...picture, bits: 16, data: wordBytes(words, false), fields: { 274: [3, [o]] } },
    ]);
    // An EXIF block is a little TIFF with the tag in it.
    const exif = tiffBytes([{ width: 1, height: 1, data: Buffer.alloc(3), fields: { 274: [3, [o]] } }]); // prettier-ignore
    const png = pngBytes({ ...picture, chunks: [pngChunk("eXIf", exif)] });
    for (const [name, bytes] of [
      ["tif", tiff],
      ["png", png],
      ["16.tif", tiff16],
    ] as const) {
      const { info, raster } = await readScan(written(`o${o}.${name}`, bytes));
      expect(info, name).toMatchObject({ orientation: o, widthPixels: WIDTH, heightPixels: HEIGHT }); // prettier-ignore
      expect(raster.width, name).toBe(WIDTH);
      const expected = Array.from(BYTES, (byte) => (raster.bitDepth === 16 ? 257 * byte : byte));
      expect(Array.from(raster.data), name).toEqual(expected);
    }
  });

  test("a JPEG is turned by its EXIF tag as well", async () => {
    const jpeg = sharp(BYTES, { raw: { ...SIZE, channels: 3 } }).jpeg({
      chromaSubsampling: "4:4:4",
    });
    const plain = await readScan(written("plain.jpg", await jpeg.clone().toBuffer()));
    const tagged = await jpeg.clone().withMetadata({ orientation: 6 }).toBuffer();
    const { info, raster } = await readScan(written("turned.jpg", tagged));
    expect(info).toMatchObject({ orientation: 6, widthPixels: HEIGHT, heightPixels: WIDTH });
    for (let row = 0; row < HEIGHT; row++)
      for (let column = 0; column < WIDTH; column++) {
        const [x, y] = UPRIGHT[6](row, column, HEIGHT - 1, WIDTH - 1);
        const from = 3 * (row * WIDTH + column);
        const to = 3 * (y * HEIGHT + x);
        expect(raster.data.subarray(to, to + 3)).toEqual(plain.raster.data.subarray(from, from + 3)); // prettier-ignore
      }
  });
});

describe("what is known of a file", () => {
  test.each<[string, Record<number, Field>, number | null]>([
    ["300 per inch", DPI_300, 300],
    ["per cm", { 282: [5, [11811, 50]], 283: [5, [11811, 50]], 296: [3, [3]] }, 600],
    ["unit left out, inch by default", { 282: [5, [400, 1]], 283: [5, [400, 1]] }, 400],
    ["none", {}, null],
    ["72, a writer's default", { 282: [5, [72, 1]], 283: [5, [72, 1]], 296: [3, [2]] }, null],
    ["a ratio without unit", { 282: [5, [300, 1]], 283: [5, [300, 1]], 296: [3, [1]] }, null],
    ["pixels that aren't square", { 282: [5, [200, 1]], 283: [5, [100, 1]], 296: [3, [2]] }, null],
    ["1 per inch", { 282: [5, [1, 1]], 283: [5, [1, 1]], 296: [3, [2]] }, null],
    ["divided by zero", { 282: [5, [300, 0]], 283: [5, [300, 0]], 296: [3, [2]] }, null],
    ["a million", { 282: [5, [1e6, 1]], 283: [5, [1e6, 1]], 296: [3, [2]] }, null],
  ])("resolution of a TIFF: %s", async (name, fields, dpi) => {
    const file = written(`dpi ${name}.tif`, tiffBytes([{ ...PAGE, fields }]));
    const { info, warnings } = await readScan(file);
    expect(info.dpi).toBe(dpi);
    expect(warnings.some(({ code }) => code === "no-dpi")).toBe(dpi === null);
  });

  test.each([
    [11811, 1, 300], // pixels per metre
    [2835, 1, null], // 72 dpi
    [11811, 0, null], // a ratio without unit
    [1, 0, null],
  ])("resolution of a PNG: %i per metre (unit %i)", async (perMetre, unit, dpi) => {
    const resolution = Buffer.concat([uint32(perMetre), uint32(perMetre), Buffer.from([unit])]);
    const chunks = [pngChunk("pHYs", resolution)];
    const file = written("dpi.png", pngBytes({ ...SIZE, data: BYTES, chunks }));
    expect((await readScan(file)).info.dpi).toBe(dpi);
  });

  test("resolution of a JPEG", async () => {
    const jpeg = sharp(BYTES, { raw: { ...SIZE, channels: 3 } }).jpeg();
    const stated = await jpeg.clone().withMetadata({ density: 600 }).toBuffer();
    expect((await readScan(written("600.jpg", stated))).info.dpi).toBe(600);
    const silent = await jpeg.clone().toBuffer();
    expect((await readScan(written("silent.jpg", silent))).info.dpi).toBeNull();
  });

  test("the time of capture, on the device's own clock", async () => {
    const jpeg = sharp(BYTES, { raw: { ...SIZE, channels: 3 } }).jpeg();
    const taken = async (name: string, photo: Record<string, string>): Promise<string | null> => {
      const exif = { IFD0: { DateTime: "2026:05:05 05:05:05" }, IFD2: photo };
      const file = written(name, await jpeg.clone().withExif(exif).toBuffer());
      return (await readScan(file)).info.takenAt;
    };
    expect(await taken("t1.jpg", { DateTimeOriginal: "2026:02:03 04:05:06" })).toBe(
      "2026-02-03T04:05:06",
    );
    expect(await taken("t2.jpg", { DateTimeDigitized: "2026:02:03 04:05:06" })).toBe(
      "2026-02-03T04:05:06",
    );
    expect(await taken("t3.jpg", { DateTimeOriginal: "0000:00:00 00:00:00" })).toBeNull();
    expect(await taken("t4.jpg", { DateTimeOriginal: "1980:01:01 00:00:00" })).toBeNull();
    expect(await taken("t5.jpg", { DateTimeOriginal: "not a time at all.." })).toBeNull();
    // Changed later by a program: says nothing about the capture.
    expect(await taken("t6.jpg", {})).toBeNull();
  });

  test("the time in a TIFF: EXIF's before the page's own", async () => {
    const own: Record<number, Field> = { 306: [2, "2026:03:04 05:06:07"] };
    const exif: Record<number, Field> = { 36867: [2, "2026:03:03 03:03:03"] };
    const plain = written("time.tif", tiffBytes([{ ...PAGE, fields: own }]));
    expect((await readScan(plain)).info.takenAt).toBe("2026-03-04T05:06:07");
    const both = written("both.tif", tiffBytes([{ ...PAGE, fields: own, exif }]));
    expect((await readScan(both)).info.takenAt).toBe("2026-03-03T03:03:03");
    const impossible: Record<number, Field> = { 306: [2, "2026:02:30 05:06:07"] };
    const wrong = written("wrong.tif", tiffBytes([{ ...PAGE, fields: impossible }]));
    expect((await readScan(wrong)).info.takenAt).toBeNull();
  });

  test("broken EXIF and a broken profile are no reason to refuse a picture", async () => {
    const broken = Buffer.from("Exif\0\0II*\0\xff\xff\xff\x7f junk", "latin1");
    const chunks = [iccChunk(noiseBytes(300, 5)), pngChunk("eXIf", broken)];
    const { info, raster } = await readScan(
      written("broken-exif.png", pngBytes({ ...SIZE, data: BYTES, chunks })),
    );
    expect(info).toMatchObject({ takenAt: null, orientation: 1 });
    expect(raster.data).toEqual(new Uint8Array(BYTES));
    const astray: Record<number, Field> = { 34665: [4, [123456789]], 34675: [7, [1, 2, 3, 4, 5]] };
    const tiff = written("broken-exif.tif", tiffBytes([{ ...PAGE, fields: astray }]));
    expect((await readScan(tiff)).raster.data).toEqual(new Uint8Array(BYTES));
  });

  test("a slip in a tag that says nothing of the pixels is forgiven", async () => {
    // The text of "Software" (305) as a number.
    const fields: Record<number, Field> = { 305: [3, [2]], 65000: [4, [7]] };
    const file = written("sloppy.tif", tiffBytes([{ ...PAGE, fields }]));
    expect((await readScan(file)).raster.data).toEqual(new Uint8Array(BYTES));
  });

  test("no profile: said in a warning, refused under strict", async () => {
    const file = written("untagged.tif", tiffBytes([{ ...PAGE, fields: DPI_300 }]));
    const { info, warnings } = await readScan(file);
    expect(info.profile).toBeNull();
    expect(warnings.map(({ code }) => code)).toEqual(["no-profile"]);
    expect(warnings[0].message).toContain("device values read as sRGB-like");
    await expect(readScan(file, { strict: true })).rejects.toMatchObject({
      code: "unsupported-format",
      input: file,
    });
    const tagged = written(
      "tagged.tif",
      tiffBytes([{ ...PAGE, fields: { ...DPI_300, 34675: [7, [...wideProfile]] } }]),
    );
    expect((await readScan(tagged, { strict: true })).warnings).toEqual([]);
  });

  test("the hash is of the file's bytes", async () => {
    const bytes = tiffBytes([PAGE]);
    const file = written("hash.tif", bytes);
    const { info } = await readScan(file);
    expect(info.sha256).toBe(createHash("sha256").update(bytes).digest("hex"));
  });

  test("content counts, not the name's ending, nor brackets, spaces and accents in it", async () => {
    const png = pngBytes({ ...SIZE, data: BYTES });
    const tiff = tiffBytes([PAGE]);
    for (const [name, bytes] of [
      ["really-png.tif", png],
      ["really-tiff.jpg", tiff],
      ["no-ending", tiff],
      ["page[page=3]", tiff],
      ["[1].png", png],
      ["Über uns été 1.png", png],
    ] as const)
      expect((await readScan(written(name, bytes))).raster.data, name).toEqual(
        new Uint8Array(BYTES),
      );
  });
});

describe("pages", () => {
  const COUNT = 300;
  /** Each page is even, of a colour of its own, and as wide as its number. */
  const pages = Array.from({ length: COUNT }, (_, i) => ({
    width: i + 1,
    height: 1,
    data: Buffer.alloc(3 * (i + 1), i % 251),
  }));
  let file: string;
  beforeAll(() => {
    file = written("pages.tif", tiffBytes(pages));
  });

  test.each([undefined, 1, 137, 300])("page %s of 300 is read", async (page) => {
    const { info, raster } = await readScan(file, { page });
    const number = page ?? 1;
    expect(info).toMatchObject({ pages: COUNT, widthPixels: number });
    expect(raster.data).toEqual(new Uint8Array(3 * number).fill((number - 1) % 251));
  });

  test("a page that isn't there is refused with the number of pages", async () => {
    await expect(readScan(file, { page: 301 })).rejects.toMatchObject({
      code: "unreadable",
      message: expect.stringMatching(/page 301 .*300 pages/) as string,
    });
    const single = written("single.png", pngBytes({ ...SIZE, data: BYTES }));
    await expect(readScan(single, { page: 2 })).rejects.toMatchObject({ code: "unreadable" });
    expect((await readScan(single, { page: 1 })).info.pages).toBe(1);
    await expect(readScan(file, { page: 0 })).rejects.toThrow(RangeError);
    await expect(readScan(file, { page: 1.5 })).rejects.toThrow(RangeError);
  });

  test("under strict a page must be named where there are several", async () => {
    const fields: Record<number, Field> = { 34675: [7, [...wideProfile]] };
    const two = written(
      "two.tif",
      tiffBytes([
        { ...PAGE, fields },
        { ...PAGE, fields },
      ]),
    );
    await expect(readScan(two, { strict: true })).rejects.toMatchObject({
      remedy: expect.stringContaining("--page") as string,
    });
    expect((await readScan(two, { strict: true, page: 2 })).info.pages).toBe(2);
  });
});

describe("16-bit words that hold fewer bits", () => {
  const read = (name: string, words: Uint16Array, strict = false) => {
    const fields: Record<number, Field> = { 34675: [7, [...wideProfile]] };
    const page = { ...PAGE16, data: wordBytes(words, false), fields };
    return readScan(written(name, tiffBytes([page])), { strict });
  };

  test("8-bit values in 16-bit words are flagged and measured as what they are, not as black", async () => {
    const words = Uint16Array.from(BYTES);
    const { info, raster, warnings } = await read("bytes16.tif", words);
    expect(info.bitDepth).toBe(16);
    expect(raster).toMatchObject({ bitDepth: 8, data: new Uint8Array(BYTES) });
    const warning = warnings.find(({ code }) => code === "under-filled-range");
    expect(warning?.message).toContain("65535");
    await expect(read("bytes16s.tif", words, true)).rejects.toMatchObject({
      code: "unsupported-format",
    });
  });

  test("12-bit values are flagged and left as they are; a full range isn't flagged", async () => {
    const twelve = WORDS.map((word) => word >> 4);
    const { raster, warnings } = await read("twelve.tif", twelve);
    expect(raster).toMatchObject({ bitDepth: 16, data: twelve });
    expect(warnings.map(({ code }) => code)).toContain("under-filled-range");
    const full = await read("full.tif", WORDS);
    expect(full.warnings.map(({ code }) => code)).not.toContain("under-filled-range");
  });
});

test("no reading changes an input", async () => {
  const files = [
    written("in.tif", tiffBytes([PAGE])),
    written("in16.png", pngBytes({ ...SIZE, bits: 16, data: wordBytes(WORDS, true) })),
    written("in-cut.tif", tiffBytes([PAGE]).subarray(0, 300)),
    written("in.txt", Buffer.from("words")),
  ];
  for (const file of files) {
    const before = { bytes: readFileSync(file), ...statSync(file) };
    await readScan(file).catch(() => null);
    expect(readFileSync(file)).toEqual(before.bytes);
    expect(statSync(file)).toMatchObject({ mtimeMs: before.mtimeMs, ino: before.ino });
  }
});

test("a file that is written to while it is read is refused", async () => {
  // Large enough that reading takes many of the timer's ticks.
  const size = { width: 3000, height: 2000 };
  const file = written("growing.tif", tiffBytes([{ ...size, data: Buffer.alloc(18e6, 128) }]));
  let tick = 0;
  const timer = setInterval(() => {
    utimesSync(file, 1e9, 1e9 + tick++);
  }, 1);
  try {
    await expect(readScan(file)).rejects.toMatchObject({
      code: "unreadable",
      remedy: expect.stringContaining("Wait") as string,
    });
  } finally {
    clearInterval(timer);
  }
});
