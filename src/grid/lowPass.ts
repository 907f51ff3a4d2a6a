import type { Planes } from "./planes.ts";

/** Full width at half maximum of the default low-pass: wide enough to hide the halftone, narrow enough to keep 3 mm areas. */
export const LOW_PASS_MM = 1;

/** Three box passes come close to a Gaussian; this factor turns the wanted half width into a box radius. */
const BOX_FACTOR = 1.73;

/** Radius in cells of each of the three boxes: 2 cells (boxes of 5) for 1 mm at 150 dpi. */
export function boxRadius(widthMm: number, mmPerCell: number): number {
  return Math.round(widthMm / mmPerCell / 2 / BOX_FACTOR);
}

/** Running mean over 2 radius + 1 neighbours along each row; at the frame's edge over those that exist. */
function boxRows(
  source: Float32Array,
  target: Float32Array,
  radius: number,
  width: number,
  height: number,
): void {
  for (let row = 0; row < height; row++) {
    const start = row * width;
    let sum = 0;
    let inside = Math.min(radius, width);
    for (let i = 0; i < inside; i++) sum += source[start + i];
    // At the left edge the window grows, in the middle it slides, at the right edge it shrinks.
    const slides = Math.min(radius + 1, width);
    const shrinks = Math.max(slides, width - radius);
    for (let i = 0; i < slides; i++) {
      if (i + radius < width) {
        sum += source[start + i + radius];
        inside++;
      }
      target[start + i] = sum / inside;
    }
    for (let i = slides; i < shrinks; i++) {
      sum += source[start + i + radius] - source[start + i - radius - 1];
      target[start + i] = sum / inside;
    }
    for (let i = shrinks; i < width; i++) {
      sum -= source[start + i - radius - 1];
      inside--;
      target[start + i] = sum / inside;
    }
  }
}

/** The same along each column, all columns side by side so that memory is read in its order. */
function boxColumns(
  source: Float32Array,
  target: Float32Array,
  radius: number,
  width: number,
  height: number,
): void {
  const sums = new Float64Array(width);
  let inside = Math.min(radius, height);
  for (let row = 0; row < inside; row++)
    for (let i = 0; i < width; i++) sums[i] += source[row * width + i];
  for (let row = 0; row < height; row++) {
    const at = row * width;
    const entering = row + radius < height ? at + radius * width : -1;
    const leaving = row - radius - 1 >= 0 ? at - (radius + 1) * width : -1;
    if (entering >= 0 && leaving >= 0) {
      for (let i = 0; i < width; i++)
        target[at + i] = (sums[i] += source[entering + i] - source[leaving + i]) / inside;
      continue;
    }
    if (entering >= 0) {
      for (let i = 0; i < width; i++) sums[i] += source[entering + i];
      inside++;
    }
    if (leaving >= 0) {
      for (let i = 0; i < width; i++) sums[i] -= source[leaving + i];
      inside--;
    }
    for (let i = 0; i < width; i++) target[at + i] = sums[i] / inside;
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
      boxRows(out, scratch, radius, width, height);
      boxColumns(scratch, out, radius, width, height);
    }
    return out;
  };
  const [r, g, b] = planes.channels;
  return { ...planes, channels: [smooth(r), smooth(g), smooth(b)] };
}
