import type { FileHandle } from "node:fs/promises";

/** Values of one image file directory (TIFF 6.0) by tag number; text as one string. */
export type TiffDirectory = ReadonlyMap<number, readonly number[] | string>;

/** Bytes of a value of each field type that is read here: BYTE, ASCII, SHORT, LONG, RATIONAL, IFD, LONG8, IFD8. */
const TYPE_BYTES: ReadonlyMap<number, number> = new Map([
  [1, 1],
  [2, 1],
  [3, 2],
  [4, 4],
  [5, 8],
  [13, 4],
  [16, 8],
  [18, 8],
]);
const ASCII = 2;
const RATIONAL = 5;

/** Longer values are strip tables and private data, which nobody asks for here. */
const LONGEST_VALUE_BYTES = 4096;

/** A directory of more entries than this is none. */
const MOST_ENTRIES = 4096;

/** Tag that points to the directory of EXIF fields. */
const EXIF_POINTER = 34665;

const VERSION_BIG = 43;

/** An open TIFF: byte order and width of offsets (4 bytes, in BigTIFF 8) are settled. */
interface TiffFile {
  readonly big: boolean;
  uint(bytes: Buffer, at: number, size: number): number;
  bytes(position: number, length: number): Promise<Buffer>;
}

function tiffFile(file: FileHandle, head: Buffer): TiffFile {
  const little = head[0] === 0x49;
  const uint = (bytes: Buffer, at: number, size: number): number => {
    if (size < 8) return little ? bytes.readUIntLE(at, size) : bytes.readUIntBE(at, size);
    const value = little ? bytes.readBigUInt64LE(at) : bytes.readBigUInt64BE(at);
    if (value > BigInt(Number.MAX_SAFE_INTEGER)) throw new RangeError("TIFF offset too large.");
    return Number(value);
  };
  return {
    big: uint(head, 2, 2) === VERSION_BIG,
    uint,
    async bytes(position, length) {
      const { buffer, bytesRead } = await file.read(Buffer.alloc(length), 0, length, position);
      if (bytesRead < length) throw new RangeError("TIFF directory beyond the end of the file.");
      return buffer;
    },
  };
}

function valuesOf(tiff: TiffFile, type: number, bytes: Buffer): readonly number[] | string {
  if (type === ASCII) return bytes.toString("latin1").split("\0", 1)[0];
  const size = TYPE_BYTES.get(type) ?? 1;
  return Array.from({ length: bytes.length / size }, (_, i) =>
    type === RATIONAL
      ? tiff.uint(bytes, i * size, 4) / tiff.uint(bytes, i * size + 4, 4)
      : tiff.uint(bytes, i * size, size),
  );
}

/** Where the fields of a directory lie and how many there are. */
interface Fields {
  readonly bytes: Buffer;
  readonly count: number;
  readonly entryBytes: number;
  readonly offsetBytes: number;
}

/** The undecoded fields of one directory, and where the next one lies (0: none). */
async function fieldsAt(tiff: TiffFile, position: number): Promise<Fields & { next: number }> {
  const [countBytes, entryBytes, offsetBytes] = tiff.big ? [8, 20, 8] : [2, 12, 4];
  const count = tiff.uint(await tiff.bytes(position, countBytes), 0, countBytes);
  if (count === 0 || count > MOST_ENTRIES)
    throw new RangeError(`TIFF directory of ${count} entries.`);
  const bytes = await tiff.bytes(position + countBytes, count * entryBytes + offsetBytes);
  const next = tiff.uint(bytes, count * entryBytes, offsetBytes);
  return { bytes, count, entryBytes, offsetBytes, next };
}

async function decoded(tiff: TiffFile, fields: Fields): Promise<TiffDirectory> {
  const { bytes, count, entryBytes, offsetBytes } = fields;
  const directory = new Map<number, readonly number[] | string>();
  for (let entry = 0; entry < count * entryBytes; entry += entryBytes) {
    const type = tiff.uint(bytes, entry + 2, 2);
    const length = tiff.uint(bytes, entry + 4, offsetBytes) * (TYPE_BYTES.get(type) ?? 0);
    if (length === 0 || length > LONGEST_VALUE_BYTES) continue;
    const field = entry + 4 + offsetBytes;
    const value =
      length <= offsetBytes
        ? bytes.subarray(field, field + length)
        : await tiff.bytes(tiff.uint(bytes, field, offsetBytes), length);
    directory.set(tiff.uint(bytes, entry, 2), valuesOf(tiff, type, value));
  }
  return directory;
}

/**
 * The directory of one page of a TIFF, its EXIF fields beside its own, and the number of pages. The decoder does not tell a
 * reduced-size preview from the picture, nor when it was taken; only descriptions are read here, never pixels.
 * @param page From 1.
 * @returns The directory is null where the file has fewer pages.
 * @throws {RangeError} The directories make no sense: the file is cut short or damaged.
 */
export async function tiffDirectory(
  file: FileHandle,
  page: number,
): Promise<{ readonly directory: TiffDirectory | null; readonly pages: number }> {
  const head = Buffer.alloc(16);
  await file.read(head, 0, 16, 0);
  const tiff = tiffFile(file, head);
  const visited = new Set<number>();
  let directory: TiffDirectory | null = null;
  for (let at = tiff.big ? tiff.uint(head, 8, 8) : tiff.uint(head, 4, 4); at !== 0;) {
    if (visited.has(at)) throw new RangeError("TIFF directories in a circle.");
    visited.add(at);
    const fields = await fieldsAt(tiff, at);
    if (visited.size === page) directory = await decoded(tiff, fields);
    at = fields.next;
  }
  const exif = Number(directory?.get(EXIF_POINTER)?.[0] ?? 0);
  if (directory !== null && exif !== 0) {
    // Broken EXIF is no reason to refuse a picture.
    const ofExif = await fieldsAt(tiff, exif)
      .then((fields) => decoded(tiff, fields))
      .catch(() => new Map<number, never>());
    directory = new Map([...ofExif, ...directory]);
  }
  return { directory, pages: visited.size };
}
