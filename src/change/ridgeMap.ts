import type { Grid } from "../grid/grid.ts";

export interface RidgeMap {
  /** By how much a place stands above both its sides, for the best direction; NaN where no direction could be judged. */
  readonly height: Float32Array;
  /** That direction along the ridge, as an index: angle = index * pi / {@link DIRECTIONS}. */
  readonly direction: Uint8Array;
}

export const DIRECTIONS = 12;
/** Averaged this far to either side along the ridge. */
const ALONG_MM = 3;
const ALONG_STEPS = 4;
/** A mean along a direction needs this many of its places. */
const LEAST_ALONG = 5;
/** Where the two sides are looked at: outside half of a line of 3 mm, near enough to fit into a margin. */
export const SIDE_MM = 2;

/** Unit vector along a direction. */
export function alongDirection(direction: number): readonly [x: number, y: number] {
  const angle = (direction * Math.PI) / DIRECTIONS;
  return [Math.cos(angle), Math.sin(angle)];
}

/**
 * Looks for narrow lines: a mean over 6 mm along each of twelve directions, less the larger of the means 2 mm to either side. A step, a slope or a
 * broad patch has no height (one of its sides is as high), and a spot has little.
 * @param values NaN where there are none.
 */
export function ridgeMap(values: Float32Array, grid: Grid): RidgeMap {
  const { width, height: rows, mmPerCell } = grid;
  const height = new Float32Array(width * rows).fill(NaN);
  const direction = new Uint8Array(width * rows);
  const mean = new Float32Array(width * rows);
  for (let d = 0; d < DIRECTIONS; d++) {
    const [tx, ty] = alongDirection(d);
    meanAlong(values, mean, grid, [tx, ty]);
    const dx = Math.round((-ty * SIDE_MM) / mmPerCell);
    const dy = Math.round((tx * SIDE_MM) / mmPerCell);
    for (let y = Math.abs(dy); y < rows - Math.abs(dy); y++)
      for (let x = Math.abs(dx); x < width - Math.abs(dx); x++) {
        const i = y * width + x;
        const side = dy * width + dx;
        const above = mean[i] - Math.max(mean[i + side], mean[i - side]);
        // Comparisons with NaN are false.
        if (above > height[i] || (Number.isNaN(height[i]) && !Number.isNaN(above))) {
          height[i] = above;
          direction[i] = d;
        }
      }
  }
  return { height, direction };
}

/** Mean over places along a line through each cell. @param along Unit vector. */
function meanAlong(
  values: Float32Array,
  out: Float32Array,
  { width, height, mmPerCell }: Grid,
  along: readonly [x: number, y: number],
): void {
  const [tx, ty] = along.map((part) => part / mmPerCell);
  const steps = Array.from({ length: 2 * ALONG_STEPS + 1 }, (_, k) => {
    const s = ((k - ALONG_STEPS) * ALONG_MM) / ALONG_STEPS;
    return [Math.round(s * tx), Math.round(s * ty)] as const;
  });
  const dxs = Int32Array.from(steps, ([dx]) => dx);
  const dys = Int32Array.from(steps, ([, dy]) => dy);
  const offsets = Int32Array.from(steps, ([dx, dy]) => dy * width + dx);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      if (Number.isNaN(values[i])) {
        out[i] = NaN;
        continue;
      }
      let sum = 0;
      let count = 0;
      for (let k = 0; k < offsets.length; k++) {
        const u = x + dxs[k];
        const v = y + dys[k];
        if (u < 0 || u >= width || v < 0 || v >= height) continue;
        const value = values[i + offsets[k]];
        if (Number.isNaN(value)) continue;
        sum += value;
        count++;
      }
      out[i] = count >= LEAST_ALONG ? sum / count : NaN;
    }
}
