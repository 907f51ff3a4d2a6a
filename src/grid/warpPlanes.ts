import type { Planes } from "./planes.ts";

/** Where each cell of a lattice over the before scan lies in the after scan, in full pixels of the after scan. */
export interface CellMap {
  readonly x: Float32Array;
  readonly y: Float32Array;
}

/**
 * The after planes seen on the lattice of the before planes, by bilinear interpolation of already low-passed means.
 * @param after Low-passed planes of the after scan.
 * @param lattice Gives width, height and steps of the result.
 * @param map One place a cell; NaN places stay NaN.
 * @returns Planes like `lattice`; NaN where the place lies outside the after frame (masked, never black).
 */
export function warpPlanes(after: Planes, lattice: Planes, map: CellMap): Planes {
  const { width, height, stepX, stepY } = after;
  const count = lattice.width * lattice.height;
  const out = [0, 1, 2].map(() => new Float32Array(count).fill(NaN)) as [
    Float32Array,
    Float32Array,
    Float32Array,
  ];
  const [r, g, b] = after.channels;
  const [outR, outG, outB] = out;
  for (let i = 0; i < count; i++) {
    const x = (map.x[i] + 0.5) / stepX - 0.5;
    const y = (map.y[i] + 0.5) / stepY - 0.5;
    if (!(x >= 0 && y >= 0 && x <= width - 1 && y <= height - 1)) continue;
    const column = Math.min(Math.floor(x), width - 2);
    const row = Math.min(Math.floor(y), height - 2);
    const fx = x - column;
    const fy = y - row;
    const at = row * width + column;
    const w00 = (1 - fx) * (1 - fy);
    const w10 = fx * (1 - fy);
    const w01 = (1 - fx) * fy;
    const w11 = fx * fy;
    outR[i] = w00 * r[at] + w10 * r[at + 1] + w01 * r[at + width] + w11 * r[at + width + 1];
    outG[i] = w00 * g[at] + w10 * g[at + 1] + w01 * g[at + width] + w11 * g[at + width + 1];
    outB[i] = w00 * b[at] + w10 * b[at + 1] + w01 * b[at + width] + w11 * b[at + width + 1];
  }
  return {
    width: lattice.width,
    height: lattice.height,
    stepX: lattice.stepX,
    stepY: lattice.stepY,
    channels: out,
  };
}
