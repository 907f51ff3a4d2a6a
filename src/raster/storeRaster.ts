import { readSync, writeSync } from "node:fs";
import type { Raster } from "./raster.ts";
import { checkRows, rowSource, type RowSource } from "./rowSource.ts";
import { scratchFile, type ScratchFile } from "./scratchFile.ts";

/** An image whose pixels are kept until they are let go. */
export interface StoredRaster extends RowSource {
  /** Lets the pixels go; may be repeated. Afterwards there are no rows. */
  release(): void;
}

/** Smaller rasters stay in memory: nothing is won by a file. Bytes. */
const SMALL = 48e6;

/** Bytes written at a time. */
const PIECE = 16e6;

/**
 * Puts a raster aside while others are worked on: large ones go to a scratch file, where the disk has room.
 * @param raster Not to be kept by the caller, so that its memory gets free.
 * @param small Bytes up to which it stays in memory. Default SMALL.
 */
export function storeRaster(raster: Raster, small: number = SMALL): StoredRaster {
  const { width, height, bitDepth, data } = raster;
  const file = data.byteLength <= small ? null : writtenFile(data);
  return file === null ? inMemory(raster) : storedRows({ width, height, bitDepth }, file);
}

function inMemory(raster: Raster): StoredRaster {
  return { ...rowSource(raster), release: () => undefined };
}

/** null where there is no room: then the pixels stay where they are, which is no reason to stop. */
function writtenFile({ buffer, byteOffset, byteLength }: Raster["data"]): ScratchFile | null {
  const file = scratchFile(byteLength);
  if (file === null) return null;
  try {
    const bytes = new Uint8Array(buffer, byteOffset, byteLength);
    for (let at = 0; at < byteLength;)
      at += writeSync(file.fd, bytes, at, Math.min(byteLength - at, PIECE), at);
    return file;
  } catch {
    file.close();
    return null;
  }
}

// Apart from `storeRaster`, so that these functions don't hold on to its raster.
function storedRows(
  { width, height, bitDepth }: Omit<RowSource, "rows">,
  file: ScratchFile,
): StoredRaster {
  const rowBytes = (3 * width * bitDepth) / 8;
  let buffer = new Uint8Array(0);
  let released = false;
  return {
    width,
    height,
    bitDepth,
    rows(first, count) {
      checkRows(height, first, count);
      if (released) throw new Error("Expected a raster that is still stored.");
      const length = count * rowBytes;
      if (buffer.length < length) buffer = new Uint8Array(length);
      for (let at = 0; at < length;) {
        const read = readSync(file.fd, buffer, at, length - at, first * rowBytes + at);
        if (read === 0) throw new Error("Expected more of a stored raster than its file holds.");
        at += read;
      }
      return bitDepth === 8
        ? buffer.subarray(0, length)
        : new Uint16Array(buffer.buffer, 0, length / 2);
    },
    release() {
      if (released) return;
      released = true;
      file.close();
    },
  };
}
