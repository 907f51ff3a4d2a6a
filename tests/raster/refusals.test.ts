import { chmodSync, mkdirSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";
import sharp from "sharp";
import { describe, expect, test } from "vitest";
import { LastrinseError } from "../../src/errors.ts";
import { readScan } from "../../src/raster/readScan.ts";
import { pictureHeader } from "../../src/raster/pictureHeader.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";
import { noiseBytes, noiseWords, pngBytes, tiffBytes, wordBytes, type Field } from "./bytes.ts";

const folder = temporaryFolder();
const SIZE = { width: 24, height: 18 };
const PIXELS = SIZE.width * SIZE.height;
const BYTES = noiseBytes(3 * PIXELS, 11);
const raw = sharp(BYTES, { raw: { ...SIZE, channels: 3 } });

function written(name: string, bytes: Uint8Array): string {
  const file = join(folder, name);
  writeFileSync(file, bytes);
  return file;
}

/** The refusal, which names the file, says what was expected and received, and what to do. */
async function refusal(file: string, page?: number): Promise<LastrinseError> {
  const error: unknown = await readScan(file, { page }).then(
    () => null,
    (reason: unknown) => reason,
  );
  expect(error).toBeInstanceOf(LastrinseError);
  const refused = error as LastrinseError;
  expect(refused.message).toMatch(/^Expected .* received .*\.$/);
  expect(refused.message).toContain(basename(file));
  expect(refused.input).toBe(file);
  expect(refused.remedy).toMatch(/^[A-Z].*\.$/);
  expect(refused.exitStatus).toBe(3);
  return refused;
}

describe("files that are no picture", () => {
  test("missing, a folder, below a file, a device", async () => {
    expect(await refusal(join(folder, "nowhere.tif"))).toMatchObject({
      code: "unreadable",
      message: expect.stringContaining("no file of that name") as string,
    });
    mkdirSync(join(folder, "folder.tif"));
    expect((await refusal(join(folder, "folder.tif"))).message).toContain("a folder");
    const file = written("file", Buffer.from("x"));
    expect((await refusal(join(file, "below.tif"))).code).toBe("unreadable");
  });

  test.skipIf(process.platform === "win32")("no permission to read", async () => {
    const file = written("locked.png", pngBytes({ ...SIZE, data: BYTES }));
    chmodSync(file, 0o600);
    chmodSync(folder, 0o711);
    // The superuser may read everything: where the tests run as such, somebody else asks.
    const superuser = process.geteuid?.() === 0;
    if (superuser) process.seteuid?.(65534);
    else chmodSync(file, 0);
    try {
      const error = await refusal(file);
      expect(error.code).toBe("unreadable");
      expect(error.message).toContain("may not read");
    } finally {
      if (superuser) process.seteuid?.(0);
    }
  });

  test("empty", async () => {
    expect(await refusal(written("empty.tif", Buffer.alloc(0)))).toMatchObject({
      code: "unreadable",
      message: expect.stringContaining("an empty file") as string,
    });
  });

  /** An ISO base media header with these brands, then noise. */
  const ftyp = (...brands: string[]): Buffer => {
    const size = Buffer.alloc(4);
    size.writeUInt32BE(12 + 4 * brands.length);
    const box = Buffer.from(`ftyp${brands[0]}\0\0\0\0${brands.slice(1).join("")}`, "latin1");
    return Buffer.concat([size, box, noiseBytes(500, 12)]);
  };

  test.each<[string, Buffer, string]>([
    ["notes.jpg", Buffer.from("bath 2, 5 min\r\nlittle colour\r\n"), "a text file"],
    ["utf-8.txt", Buffer.from("Café, 38 °C"), "a text file"],
    ["drawing.png", Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"/>'), "a text file"],
    ["phone.jpg", ftyp("heic", "mif1", "heic"), "a HEIC picture"],
    ["phone2.heic", ftyp("mif1", "mif1", "heix"), "a HEIC picture"],
    ["picture.avif", ftyp("mif1", "mif1", "avif"), "an AVIF picture"],
    ["film.mp4", ftyp("isom", "isom", "mp42"), "unknown kind"],
    ["noise.tif", Buffer.concat([Buffer.from([0]), noiseBytes(900, 13)]), "unknown kind"],
    ["scan.pdf", Buffer.from("%PDF-1.7\n%\xe2\xe3\xcf\xd3\n", "latin1"), "a PDF document"],
    ["scans.zip", Buffer.from("PK\x03\x04\x14\0\0\0", "latin1"), "a ZIP archive"],
    ["raw.tif", Buffer.from("II*\0\x10\0\0\0CR\x02\0", "latin1"), "camera raw"],
    ["screen.bmp", Buffer.from("BM\x36\0\x0c\0\0\0", "latin1"), "a BMP picture"],
  ])("%s is recognised by its content", async (name, bytes, words) => {
    const error = await refusal(written(name, bytes));
    expect(error.code).toBe("unsupported-format");
    expect(error.message).toContain(words);
    if (words.includes("HEIC")) expect(error.remedy).toContain("Save it as JPEG or TIFF");
  });

  test("formats that the decoder could read but nobody should measure on", async () => {
    expect((await refusal(written("w.png", await raw.clone().webp().toBuffer()))).message).toContain("WebP"); // prettier-ignore
    expect((await refusal(written("g.png", await raw.clone().gif().toBuffer()))).message).toContain("GIF"); // prettier-ignore
  });
});

describe("pictures in a form that can't serve for colour work", () => {
  const unsupported = async (file: string, words: string): Promise<LastrinseError> => {
    const error = await refusal(file);
    expect(error.code).toBe("unsupported-format");
    expect(error.message).toContain(words);
    // The header alone suffices to refuse.
    await expect(pictureHeader(file)).rejects.toMatchObject({ code: "unsupported-format" });
    return error;
  };
  const grey = BYTES.subarray(0, PIXELS);
  const grey16 = wordBytes(noiseWords(PIXELS, 14), true);

  test("CMYK, in JPEG and in TIFF", async () => {
    const jpeg = await raw.clone().toColourspace("cmyk").jpeg().toBuffer();
    const error = await unsupported(written("cmyk.jpg", jpeg), "CMYK");
    expect(error.remedy).toContain("RGB");
    const page = { ...SIZE, samples: 4, photometric: 5, data: noiseBytes(4 * PIXELS, 15) };
    await unsupported(written("cmyk.tif", tiffBytes([page])), "CMYK");
  });

  test("greyscale of 8 and 16 bit, with alpha, inverted, line art", async () => {
    const jpeg = await raw.clone().greyscale().toColourspace("b-w").jpeg().toBuffer();
    for (const [name, bytes] of [
      ["grey.jpg", jpeg],
      ["grey.png", pngBytes({ ...SIZE, colourType: 0, data: grey })],
      ["grey16.png", pngBytes({ ...SIZE, bits: 16, colourType: 0, data: grey16 })],
      ["grey-alpha.png", pngBytes({ ...SIZE, colourType: 4, data: BYTES.subarray(0, 2 * PIXELS) })],
      ["grey.tif", tiffBytes([{ ...SIZE, samples: 1, photometric: 1, data: grey }])],
      ["inverted.tif", tiffBytes([{ ...SIZE, samples: 1, photometric: 0, data: grey }])],
      ["grey16.tif", tiffBytes([{ ...SIZE, bits: 16, samples: 1, photometric: 1, data: grey16 }])],
      [
        "line-art.tif",
        tiffBytes([{ ...SIZE, bits: 1, samples: 1, photometric: 1, data: grey.subarray(0, 54) }]),
      ],
    ] as const)
      expect((await unsupported(written(name, bytes), "greyscale")).remedy).toContain("in colour");
  });

  test("Lab, floating point, signed, odd bit depths, many channels, sensor data", async () => {
    const floats = Buffer.from(Float32Array.from(BYTES, (byte) => byte / 255).buffer);
    const words = wordBytes(noiseWords(3 * PIXELS, 16), false);
    const format = (value: number): Record<number, Field> => ({ 339: [3, [value, value, value]] });
    const cases: readonly [string, Parameters<typeof tiffBytes>[0][number], string][] = [
      ["lab.tif", { ...SIZE, photometric: 8, data: BYTES }, "Lab"],
      ["icc-lab.tif", { ...SIZE, photometric: 9, data: BYTES }, "Lab"],
      ["lab16.tif", { ...SIZE, photometric: 8, bits: 16, data: words }, "Lab"],
      ["float.tif", { ...SIZE, bits: 32, data: floats, fields: format(3) }, "floating-point"],
      ["signed.tif", { ...SIZE, bits: 16, data: words, fields: format(2) }, "signed"],
      ["12.tif", { ...SIZE, bits: 12, data: BYTES }, "12 bits"],
      ["32.tif", { ...SIZE, bits: 32, data: floats }, "32 bits"],
      [
        "5.tif",
        { ...SIZE, samples: 5, data: noiseBytes(5 * PIXELS, 17), fields: { 338: [3, [0, 0]] } },
        "5 channels",
      ],
      ["cfa.tif", { ...SIZE, samples: 1, photometric: 32803, data: grey }, "camera raw"],
      ["raw.tif", { ...SIZE, data: BYTES, fields: { 50706: [1, [1, 4, 0, 0]] } }, "camera raw"],
    ];
    for (const [name, page, received] of cases)
      await unsupported(written(name, tiffBytes([page])), received);
  });

  test("a reduced-size preview is not taken for the picture; the page with the picture is read", async () => {
    const preview = { width: 4, height: 3, data: noiseBytes(36, 18), fields: { 254: [4, [1]] } } as const; // prettier-ignore
    const file = written("preview.tif", tiffBytes([preview, { ...SIZE, data: BYTES }]));
    expect((await unsupported(file, "preview")).remedy).toContain("--page");
    expect((await readScan(file, { page: 2 })).raster.data).toEqual(new Uint8Array(BYTES));
  });
});

test("more pixels than are admitted are refused by the header alone", async () => {
  const bomb = written("bomb.png", pngBytes({ width: 60000, height: 60000 }));
  const error = await refusal(bomb);
  expect(error.code).toBe("too-large");
  expect(error.message).toContain("60000 x 60000");
  await expect(pictureHeader(bomb)).rejects.toMatchObject({ code: "too-large" });
  const fields: Record<number, Field> = { 257: [4, [50000]] };
  const wide = tiffBytes([{ width: 12001, height: 2, data: BYTES, fields }]);
  expect((await refusal(written("bomb.tif", wide))).code).toBe("too-large");
  // One row less than the limit of 600 megapixels passes.
  const large = written("large.png", pngBytes({ width: 30000, height: 19999 }));
  expect((await pictureHeader(large)).info).toMatchObject({ widthPixels: 30000 });
});
