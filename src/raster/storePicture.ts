import { readSync } from "node:fs";
import { decodeRaster, uprightRgb } from "./decodeRaster.ts";
import type { PictureHeader } from "./pictureHeader.ts";
import { checkRows, rowSource, type RowSource } from "./rowSource.ts";
import { scratchFile } from "./scratchFile.ts";

/** A picture whose pixels are kept until they are let go. */
export interface StoredPicture extends RowSource {
  /** Lets the pixels go; may be repeated. Afterwards there are no rows. */
  release(): void;
}

/** Smaller pictures stay in memory: nothing is won by a file. Bytes. */
const SMALL = 48e6;

/** What stands before the pixels of the image library's own plain form, in 32-bit words of this machine. */
const HEADER_BYTES = 64;
const [WORD_WIDTH, WORD_HEIGHT, WORD_BANDS, WORD_FORMAT] = [1, 2, 3, 5];
const FORMAT_OF_BITS = { 8: 0, 16: 2 } as const;

/**
 * Decodes a picture as `decodeRaster` does. A large one goes to a scratch file row by row and never stands in memory as a whole,
 * where the disk has room.
 * @param small Bytes up to which it stays in memory. Default SMALL.
 * @throws {LastrinseError} `unreadable`: the data are cut short or damaged.
 */
export async function storePicture(
  header: PictureHeader,
  small: number = SMALL,
): Promise<StoredPicture> {
  const { widthPixels, heightPixels, bitDepth } = header.info;
  const bytes = (widthPixels * heightPixels * 3 * bitDepth) / 8;
  const stored = bytes <= small ? null : await decodedToScratch(header, bytes);
  return stored ?? { ...rowSource(await decodeRaster(header)), release: () => undefined };
}

/** null where that isn't possible: no room, or the data are damaged, which decoding in memory will tell. */
async function decodedToScratch(
  header: PictureHeader,
  bytes: number,
): Promise<StoredPicture | null> {
  const { widthPixels: width, heightPixels: height, bitDepth } = header.info;
  const file = scratchFile(bytes);
  if (file === null) return null;
  try {
    const picture = uprightRgb(header);
    await (bitDepth === 16 ? picture.toColourspace("rgb16") : picture).toFile(file.path);
    const fd = file.open();
    const words = new Int32Array(HEADER_BYTES / 4);
    readSync(fd, words, 0, HEADER_BYTES, 0);
    if (
      words[WORD_WIDTH] === width &&
      words[WORD_HEIGHT] === height &&
      words[WORD_BANDS] === 3 &&
      words[WORD_FORMAT] === FORMAT_OF_BITS[bitDepth]
    )
      return storedRows({ width, height, bitDepth }, fd, () => {
        file.close();
      });
  } catch {
    // Told below, or by the decoding in memory.
  }
  file.close();
  return null;
}

function storedRows(
  { width, height, bitDepth }: Omit<RowSource, "rows">,
  fd: number,
  close: () => void,
): StoredPicture {
  const rowBytes = (3 * width * bitDepth) / 8;
  let buffer = new Uint8Array(0);
  let released = false;
  return {
    width,
    height,
    bitDepth,
    rows(first, count) {
      checkRows(height, first, count);
      if (released) throw new Error("Expected a picture that is still stored.");
      const length = count * rowBytes;
      if (buffer.length < length) buffer = new Uint8Array(length);
      for (let at = 0; at < length;) {
        const read = readSync(fd, buffer, at, length - at, HEADER_BYTES + first * rowBytes + at);
        if (read === 0) throw new Error("Expected more of a stored picture than its file holds.");
        at += read;
      }
      return bitDepth === 8
        ? buffer.subarray(0, length)
        : new Uint16Array(buffer.buffer, 0, length / 2);
    },
    release() {
      if (released) return;
      released = true;
      close();
    },
  };
}
