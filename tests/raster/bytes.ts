import { crc32, deflateSync } from "node:zlib";
import { seededRandom } from "../../src/numeric/random.ts";

/**
 * Files made byte by byte from the specifications (TIFF 6.0; PNG, ISO/IEC 15948), so that the reader is not checked against
 * the library it reads with.
 */

/** Type and values of a TIFF field; text as one string. */
export type Field = readonly [type: number, values: readonly number[] | string];

export interface TiffPage {
  readonly width: number;
  readonly height: number;
  readonly bits?: number;
  readonly samples?: number;
  readonly photometric?: number;
  /** Sample bytes in the byte order of the file. */
  readonly data: Buffer;
  readonly fields?: Readonly<Record<number, Field>>;
  /** Fields of an EXIF directory. */
  readonly exif?: Readonly<Record<number, Field>>;
}

const FIELD_BYTES: Readonly<Record<number, number>> = { 1: 1, 2: 1, 3: 2, 4: 4, 5: 4, 7: 1 };

/** An uncompressed TIFF, little-endian ("II") or big-endian ("MM"), pixels before directories or after. */
export function tiffBytes(
  pages: readonly TiffPage[],
  { bigEndian = false, directoryFirst = false } = {},
): Buffer {
  const put = (buffer: Buffer, value: number, at: number, size: number): void => {
    if (bigEndian) buffer.writeUIntBE(value, at, size);
    else buffer.writeUIntLE(value, at, size);
  };
  const head = Buffer.from(bigEndian ? "MM\0*\0\0\0\0" : "II*\0\0\0\0\0", "latin1");
  const parts: Buffer[] = [head];
  let length = head.length;
  const append = (part: Buffer): number => {
    const at = length;
    parts.push(part);
    length += part.length;
    if (length % 2 === 1) {
      parts.push(Buffer.alloc(1));
      length++;
    }
    return at;
  };
  /** Appends a directory and returns its place and its bytes, whose last four link to the next. */
  const appendDirectory = (fields: Readonly<Record<number, Field>>): [number, Buffer] => {
    const entries = Object.entries(fields); // integer keys come in rising order, as TIFF wants
    const directory = Buffer.alloc(2 + 12 * entries.length + 4);
    const start = append(directory);
    put(directory, entries.length, 0, 2);
    entries.forEach(([tag, [type, values]], i) => {
      const size = FIELD_BYTES[type];
      const numbers =
        typeof values === "string" ? [...Buffer.from(`${values}\0`, "latin1")] : values;
      const bytes = Buffer.alloc(Math.max(4, size * numbers.length));
      numbers.forEach((value, j) => {
        put(bytes, value, size * j, size);
      });
      const entry = 2 + 12 * i;
      put(directory, Number(tag), entry, 2);
      put(directory, type, entry + 2, 2);
      put(directory, type === 5 ? numbers.length / 2 : numbers.length, entry + 4, 4);
      if (bytes.length <= 4) bytes.copy(directory, entry + 8);
      else put(directory, append(bytes), entry + 8, 4);
    });
    return [start, directory];
  };

  let link: [Buffer, number] = [head, 4];
  for (const page of pages) {
    const { width, height, bits = 8, samples = 3, photometric = 2, data } = page;
    const dataAt = directoryFirst ? 0 : append(data);
    const exif = page.exif === undefined ? {} : { 34665: [4, [appendDirectory(page.exif)[0]]] };
    const [at, directory] = appendDirectory({
      256: [4, [width]],
      257: [4, [height]],
      258: [3, new Array<number>(samples).fill(bits)],
      259: [3, [1]],
      262: [3, [photometric]],
      273: [4, [dataAt]],
      277: [3, [samples]],
      278: [4, [height]],
      279: [4, [data.length]],
      ...exif,
      ...page.fields,
    } as Record<number, Field>);
    put(link[0], at, link[1], 4);
    link = [directory, directory.length - 4];
    if (directoryFirst) {
      const entry = [256, 257, 258, 259, 262, 273].indexOf(273);
      put(directory, append(data), 2 + 12 * entry + 8, 4);
    }
  }
  return Buffer.concat(parts);
}

export function pngChunk(type: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(type, "latin1"), data]);
  const chunk = Buffer.alloc(8 + body.length);
  chunk.writeUInt32BE(data.length, 0);
  body.copy(chunk, 4);
  chunk.writeUInt32BE(crc32(body), 4 + body.length);
  return chunk;
}

export interface PngPicture {
  readonly width: number;
  readonly height: number;
  readonly bits?: number;
  /** 0 grey, 2 R G B, 3 palette, 4 grey and alpha, 6 R G B alpha. Default 2. */
  readonly colourType?: number;
  /** Samples, 16 bit big-endian. Default: none, a header without a picture. */
  readonly data?: Buffer;
  /** Chunks between header and data. */
  readonly chunks?: readonly Buffer[];
}

export function pngBytes(picture: PngPicture): Buffer {
  const { width, height, bits = 8, colourType = 2, data = Buffer.alloc(0), chunks = [] } = picture;
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  header[8] = bits;
  header[9] = colourType;
  const rowLength = data.length / height;
  const rows = data.length === 0 ? [] : Array.from({ length: height }, (_, y) => y * rowLength);
  const filtered = Buffer.concat(
    rows.map((at) => Buffer.concat([Buffer.alloc(1), data.subarray(at, at + rowLength)])),
  );
  return Buffer.concat([
    Buffer.from("\x89PNG\r\n\x1a\n", "latin1"),
    pngChunk("IHDR", header),
    ...chunks,
    pngChunk("IDAT", deflateSync(filtered)),
    pngChunk("IEND", Buffer.alloc(0)),
  ]);
}

/** A PNG chunk holding an ICC profile. */
export function iccChunk(profile: Buffer): Buffer {
  return pngChunk(
    "iCCP",
    Buffer.concat([Buffer.from("profile\0\0", "latin1"), deflateSync(profile)]),
  );
}

/** Words in the byte order wanted, as bytes. */
export function wordBytes(words: Uint16Array, bigEndian: boolean): Buffer {
  const bytes = Buffer.alloc(2 * words.length);
  words.forEach((word, i) =>
    bigEndian ? bytes.writeUInt16BE(word, 2 * i) : bytes.writeUInt16LE(word, 2 * i),
  );
  return bytes;
}

/** Seeded noise. */
export function noiseBytes(length: number, seed: number): Buffer {
  const random = seededRandom(seed);
  return Buffer.from(Uint8Array.from({ length }, () => random.below(256)));
}

/** Seeded noise over the whole range of 16 bit. */
export function noiseWords(length: number, seed: number): Uint16Array {
  const random = seededRandom(seed);
  return Uint16Array.from({ length }, () => random.below(65536));
}
