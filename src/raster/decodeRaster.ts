import type { Sharp } from "sharp";
import { damagedPicture } from "./damagedPicture.ts";
import type { PictureHeader } from "./pictureHeader.ts";
import type { Raster } from "./raster.ts";
import { sharp } from "./sharp.ts";

/** The picture before it is decoded: no profile applied, upright, alpha left off. */
export function uprightRgb({ source, options }: PictureHeader): Sharp {
  return sharp(source, options).autoOrient().removeAlpha();
}

/**
 * Decodes a picture to device values: no profile applied, upright, alpha left off, 16 bit kept as 16.
 * @throws {LastrinseError} `unreadable`: the data are cut short or damaged.
 */
export async function decodeRaster(header: PictureHeader): Promise<Raster> {
  const { file, widthPixels: width, heightPixels: height, bitDepth } = header.info;
  const picture = uprightRgb(header);
  // Each of the two alone gives 8-bit values in 16-bit words.
  if (bitDepth === 16) picture.toColourspace("rgb16").raw({ depth: "ushort" });
  else picture.raw({ depth: "uchar" });
  const { data: bytes, info } = await picture
    .toBuffer({ resolveWithObject: true })
    .catch((error: unknown) => {
      throw damagedPicture(file, error);
    });
  // The types of the image library leave this field out.
  const got: typeof info & { readonly depth?: string } = info;
  const depth = bitDepth === 16 ? "ushort" : "uchar";
  const length = width * height * 3;
  if (
    got.width !== width ||
    got.height !== height ||
    got.channels !== 3 ||
    got.depth !== depth ||
    bytes.byteLength !== (length * bitDepth) / 8
  )
    throw new Error(
      `Expected ${width} x ${height} x 3 values (${depth}) of ${file}, the decoder gave ${got.width} x ${got.height} x ${got.channels} (${got.depth}).`,
    );
  if (bitDepth === 8)
    return {
      width,
      height,
      bitDepth,
      data: new Uint8Array(bytes.buffer, bytes.byteOffset, length),
    };
  // A view of words must begin at an even byte.
  const aligned = bytes.byteOffset % 2 === 0 ? bytes : new Uint8Array(bytes);
  const data = new Uint16Array(aligned.buffer, aligned.byteOffset, length);
  return { width, height, bitDepth, data };
}
