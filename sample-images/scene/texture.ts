import { NOISE_TILE, noiseTile } from "./valueNoise.ts";

/** Distance of the points of a texture tile. */
export const NOISE_STEP_MM = 0.11;

/** Fine fibre, clumps of fibre. */
const GRAIN_OCTAVES = [
  { cell: 1, gain: 0.4 },
  { cell: 4, gain: 0.4 },
  { cell: 16, gain: 0.2 },
];
const MOTTLE_OCTAVES = [
  { cell: 4, gain: 0.4 },
  { cell: 8, gain: 0.4 },
  { cell: 32, gain: 0.2 },
];

/** The grain of a sheet and the mottle of its ink, fixed to the sheet: what registration may hold on to between the drawing. */
export interface Texture {
  readonly grain: Float32Array;
  readonly mottle: Float32Array;
}

/** Same seed, same paper. */
export function paperTexture(seed: number): Texture {
  return { grain: noiseTile(seed, GRAIN_OCTAVES), mottle: noiseTile(seed + 1, MOTTLE_OCTAVES) };
}

/** Value of a tile at a place, both coordinates in tile points and not negative. */
export function textureAt(tile: Float32Array, x: number, y: number): number {
  const column = x | 0;
  const row = y | 0;
  const u = x - column;
  const v = y - row;
  const c0 = column & (NOISE_TILE - 1);
  const c1 = (column + 1) & (NOISE_TILE - 1);
  const r0 = (row & (NOISE_TILE - 1)) * NOISE_TILE;
  const r1 = ((row + 1) & (NOISE_TILE - 1)) * NOISE_TILE;
  const top = tile[r0 + c0] + (tile[r0 + c1] - tile[r0 + c0]) * u;
  const bottom = tile[r1 + c0] + (tile[r1 + c1] - tile[r1 + c0]) * u;
  return top + (bottom - top) * v;
}
