/** A plane of values on a square lattice; NaN where there is none. */
export interface Lattice {
  readonly columns: number;
  readonly rows: number;
  readonly mm: number;
}

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
 */
export function ridgeMap(values: Float32Array, { columns, rows, mm }: Lattice): RidgeMap {
  const size = columns * rows;
  const height = new Float32Array(size).fill(NaN);
  const direction = new Uint8Array(size);
  const mean = new Float32Array(size);
  for (let d = 0; d < DIRECTIONS; d++) {
    const [tx, ty] = alongDirection(d);
    meanAlong(values, mean, columns, rows, tx / mm, ty / mm);
    const dx = Math.round((-ty * SIDE_MM) / mm);
    const dy = Math.round((tx * SIDE_MM) / mm);
    for (let y = Math.abs(dy); y < rows - Math.abs(dy); y++)
      for (let x = Math.abs(dx); x < columns - Math.abs(dx); x++) {
        const i = y * columns + x;
        const side = dy * columns + dx;
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

/** Mean over places along a line through each cell. @param tx Cells along x per mm of the line. */
function meanAlong(
  values: Float32Array,
  out: Float32Array,
  columns: number,
  rows: number,
  tx: number,
  ty: number,
): void {
  const steps = Array.from({ length: 2 * ALONG_STEPS + 1 }, (_, k) => {
    const s = ((k - ALONG_STEPS) * ALONG_MM) / ALONG_STEPS;
    return [Math.round(s * tx), Math.round(s * ty)] as const;
  });
  const dxs = Int32Array.from(steps, ([dx]) => dx);
  const dys = Int32Array.from(steps, ([, dy]) => dy);
  const offsets = Int32Array.from(steps, ([dx, dy]) => dy * columns + dx);
  for (let y = 0; y < rows; y++)
    for (let x = 0; x < columns; x++) {
      const i = y * columns + x;
      if (Number.isNaN(values[i])) {
        out[i] = NaN;
        continue;
      }
      let sum = 0;
      let count = 0;
      for (let k = 0; k < offsets.length; k++) {
        const u = x + dxs[k];
        const v = y + dys[k];
        if (u < 0 || u >= columns || v < 0 || v >= rows) continue;
        const value = values[i + offsets[k]];
        if (Number.isNaN(value)) continue;
        sum += value;
        count++;
      }
      out[i] = count >= LEAST_ALONG ? sum / count : NaN;
    }
}
