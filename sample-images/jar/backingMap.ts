import sharp from "sharp";
import { JAR_BACKING } from "../../calibration/jar-backing.ts";
import { jarBackingSheet } from "../../src/card/sheet/jarBackingSheet.ts";
import { sheetSvg } from "../../src/card/sheet/sheetSvg.ts";

/** Share of white, 0..1, of what stands behind the jar; row-major. */
export interface BackingMap {
  readonly pixelsPerMm: number;
  readonly width: number;
  readonly height: number;
  /** As the lens shows it. */
  readonly sharp: Float32Array;
  /** As light that the liquid has scattered forward shows it. */
  readonly blurred: Float32Array;
}

/** Halo of forward scattering on the backing: takes four fifths of the 10 mm stripes' first harmonic and all of the 3 mm ones'. */
const HALO_MM = 2.8;

const LENS_BLUR_MM = 0.1;

const MAP_PIXELS_PER_MM = 8;

/** The printed sheet, from the very SVG the user prints. */
export async function printedBackingMap(): Promise<BackingMap> {
  const { widthMm, heightMm } = JAR_BACKING;
  const width = widthMm * MAP_PIXELS_PER_MM;
  const height = heightMm * MAP_PIXELS_PER_MM;
  // sharp's density counts twice for lengths in mm; the resize takes up the rounding.
  const pixels = await sharp(Buffer.from(sheetSvg(jarBackingSheet())), {
    density: Math.sqrt(MAP_PIXELS_PER_MM * 25.4 * 72),
  })
    .resize(width, height, { fit: "fill" })
    .greyscale()
    .raw()
    .toBuffer();
  return mapOf(width, height, (i) => pixels[i] / 255);
}

/** Stripes of our own choice: horizontal, white first, in zones given in mm from the top; white between and beside them. */
export function stripedMap(
  widthMm: number,
  heightMm: number,
  zones: readonly { readonly fromMm: number; readonly toMm: number; readonly periodMm: number }[],
): BackingMap {
  const width = widthMm * MAP_PIXELS_PER_MM;
  const height = heightMm * MAP_PIXELS_PER_MM;
  const rows = Float32Array.from({ length: height }, (_, row) => {
    const y = (row + 0.5) / MAP_PIXELS_PER_MM;
    const zone = zones.find(({ fromMm, toMm }) => y >= fromMm && y < toMm);
    if (zone === undefined) return 1;
    return ((y - zone.fromMm) / zone.periodMm) % 1 < 0.5 ? 1 : 0;
  });
  return mapOf(width, height, (i) => rows[Math.floor(i / width)]);
}

function mapOf(width: number, height: number, white: (i: number) => number): BackingMap {
  const drawn = Float32Array.from({ length: width * height }, (_, i) => white(i));
  return {
    pixelsPerMm: MAP_PIXELS_PER_MM,
    width,
    height,
    sharp: blurred(drawn, width, height, LENS_BLUR_MM * MAP_PIXELS_PER_MM),
    blurred: blurred(drawn, width, height, HALO_MM * MAP_PIXELS_PER_MM),
  };
}

/** Near enough Gaussian: three running means along each axis, edges held. */
function blurred(source: Float32Array, width: number, height: number, sigma: number): Float32Array {
  // Three boxes of 2r + 1 have variance r (r + 1).
  const radius = Math.max(1, Math.round((Math.sqrt(1 + 4 * sigma * sigma) - 1) / 2));
  const out = source.slice();
  const line = new Float32Array(Math.max(width, height));
  for (let round = 0; round < 3; round++) {
    for (let y = 0; y < height; y++)
      runningMean(out, { start: y * width, step: 1, count: width }, radius, line);
    for (let x = 0; x < width; x++)
      runningMean(out, { start: x, step: width, count: height }, radius, line);
  }
  return out;
}

function runningMean(
  data: Float32Array,
  { start, step, count }: { readonly start: number; readonly step: number; readonly count: number },
  radius: number,
  line: Float32Array,
): void {
  for (let i = 0; i < count; i++) line[i] = data[start + i * step];
  const at = (i: number): number => line[Math.min(count - 1, Math.max(0, i))];
  let sum = 0;
  for (let i = -radius; i <= radius; i++) sum += at(i);
  for (let i = 0; i < count; i++) {
    data[start + i * step] = sum / (2 * radius + 1);
    sum += at(i + radius + 1) - at(i - radius);
  }
}
