import type { Planes } from "../raster/planes.ts";

/** Full width at half maximum of the default low-pass: wide enough to hide the halftone, narrow enough to keep 3 mm areas. */
export const LOW_PASS_MM = 1;

/** Three box passes come close to a Gaussian; this factor turns the wanted half width into a box radius. */
const BOX_FACTOR = 1.73;

/** Radius in cells of each of the three boxes: 2 cells (boxes of 5) for 1 mm at 150 dpi. */
export function boxRadius(widthMm: number, mmPerCell: number): number {
  return Math.round(widthMm / mmPerCell / 2 / BOX_FACTOR);
}

/**
 * Running mean over 2 radius + 1 neighbours along one axis; at the frame's edge over those that exist.
 * @param count Cells along the axis. @param lines Number of lines.
 * @param stride Distance of neighbours along the axis. @param lineStride Distance of the first cells of two lines.
 */
function boxAlong(
  source: Float32Array,
  target: Float32Array,
  radius: number,
  count: number,
  lines: number,
  stride: number,
  lineStride: number,
): void {
  for (let line = 0; line < lines; line++) {
    const start = line * lineStride;
    let sum = 0;
    let inside = Math.min(radius, count);
    for (let i = 0; i < inside; i++) sum += source[start + i * stride];
    for (let i = 0; i < count; i++) {
      if (i + radius < count) {
        sum += source[start + (i + radius) * stride];
        inside++;
      }
      if (i - radius - 1 >= 0) {
        sum -= source[start + (i - radius - 1) * stride];
        inside--;
      }
      target[start + i * stride] = sum / inside;
    }
  }
}

/**
 * Low-pass in linear light: three box passes along rows and columns.
 * @param planes Linear means without NaN.
 * @param radius Of each box, in cells; 0 returns `planes` itself.
 */
export function lowPass(planes: Planes, radius: number): Planes {
  if (radius === 0) return planes;
  const { width, height } = planes;
  const scratch = new Float32Array(width * height);
  const smooth = (source: Float32Array): Float32Array => {
    const out = source.slice();
    for (let pass = 0; pass < 3; pass++) {
      boxAlong(out, scratch, radius, width, height, 1, width);
      boxAlong(scratch, out, radius, height, width, width, 1);
    }
    return out;
  };
  const [r, g, b] = planes.channels;
  return { ...planes, channels: [smooth(r), smooth(g), smooth(b)] };
}
