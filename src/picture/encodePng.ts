import { sharp } from "../raster/sharp.ts";

/** An 8-bit picture to be written, row-major, interleaved: grey, R G B, or R G B alpha. */
export interface Picture8 {
  readonly width: number;
  readonly height: number;
  readonly channels: 1 | 3 | 4;
  /** Length width * height * channels. */
  readonly data: Uint8Array;
}

/** zlib's own default: 9 takes several times as long for a few per cent. */
const COMPRESSION_LEVEL = 6;

/**
 * A PNG of exactly these values: same picture, same bytes.
 * @param dpi Resolution to state in the file. Default: none.
 * @throws {RangeError} The data don't fit the size.
 */
export async function encodePng(picture: Picture8, dpi?: number): Promise<Buffer> {
  const { width, height, channels, data } = picture;
  if (data.length !== width * height * channels)
    throw new RangeError(
      `Expected ${width} x ${height} x ${channels} values, received ${data.length}.`,
    );
  let encoder = sharp(data, { raw: { width, height, channels }, limitInputPixels: false });
  if (channels === 1) encoder = encoder.toColourspace("b-w");
  if (dpi !== undefined) encoder = encoder.withDensity(dpi);
  return encoder
    .png({ compressionLevel: COMPRESSION_LEVEL, adaptiveFiltering: false, palette: false })
    .toBuffer();
}
