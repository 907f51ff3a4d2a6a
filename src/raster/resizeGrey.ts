import type { GreyImage } from "../vision/features.ts";
import { sharedBytes } from "../numeric/shared.ts";
import { sharp } from "./sharp.ts";

/**
 * From a reduction of 4 on, the image library first averages whole blocks. That shifts the picture by up to a block's remainder
 * (0.27 full pixels measured at 9333 -> 2333) and lets halftones through as moire. Steps below that do neither.
 */
const LARGEST_STEP = 3.9;

/**
 * A grey picture resized to `width` x `height` with the Lanczos kernel (three lobes). The outer borders of both pictures
 * coincide: a pixel (x) of the result and one (X) of the source are related by X = (x + 0.5) W / width - 0.5.
 * @throws {RangeError} The size isn't whole and positive.
 */
export async function resizeGrey(
  source: GreyImage,
  width: number,
  height: number,
): Promise<GreyImage> {
  if (!(Number.isInteger(width) && Number.isInteger(height) && width >= 1 && height >= 1))
    throw new RangeError(`Expected a size in whole pixels, received ${width} x ${height}.`);
  if (width === source.width && height === source.height) return source;
  const reduction = Math.max(source.width / width, source.height / height);
  if (reduction <= LARGEST_STEP) return resizeOnce(source, width, height);
  const steps = Math.ceil(Math.log(reduction) / Math.log(LARGEST_STEP));
  const between = (from: number, to: number): number =>
    Math.round(from * (to / from) ** (1 / steps));
  const reduced = await resizeOnce(
    source,
    between(source.width, width),
    between(source.height, height),
  );
  return resizeGrey(reduced, width, height);
}

async function resizeOnce(
  { pixels, width: fromWidth, height: fromHeight }: GreyImage,
  width: number,
  height: number,
): Promise<GreyImage> {
  const bytes = await sharp(pixels, {
    raw: { width: fromWidth, height: fromHeight, channels: 1 },
    limitInputPixels: false,
  })
    .resize(width, height, { fit: "fill", kernel: "lanczos3" })
    .toColourspace("b-w")
    .raw()
    .toBuffer();
  const shared = sharedBytes(bytes.length);
  shared.set(bytes);
  return { pixels: shared, width, height };
}
