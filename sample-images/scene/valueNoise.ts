/** Bits of a lattice point mixed so that neighbours share nothing (finaliser of a multiplicative hash). */
export function hashLattice(seed: number, column: number, row: number): number {
  let h = (seed ^ Math.imul(column, 0x27d4eb2d) ^ Math.imul(row, 0x165667b1)) | 0;
  h = Math.imul(h ^ (h >>> 15), 0x2c1b3c6d);
  h = Math.imul(h ^ (h >>> 12), 0x297a2d39);
  return (h ^ (h >>> 15)) >>> 0;
}

/**
 * Seeded value noise: random values on a unit lattice, joined smoothly.
 * @param seed Any integer; another seed gives an unrelated field.
 * @returns -1..1, mean 0 over the plane; continuous, with zero slope at the lattice points.
 */
export function valueNoise(seed: number, x: number, y: number): number {
  const column = Math.floor(x);
  const row = Math.floor(y);
  const u = x - column;
  const v = y - row;
  const su = u * u * (3 - 2 * u);
  const sv = v * v * (3 - 2 * v);
  const n00 = hashLattice(seed, column, row);
  const n10 = hashLattice(seed, column + 1, row);
  const n01 = hashLattice(seed, column, row + 1);
  const n11 = hashLattice(seed, column + 1, row + 1);
  const top = n00 + (n10 - n00) * su;
  const bottom = n01 + (n11 - n01) * su;
  return (top + (bottom - top) * sv) / 0x7fffffff - 1;
}

/**
 * Sum of octaves of {@link valueNoise}, each twice as fine and half as strong.
 * @param octaves At least 1.
 * @returns -1..1.
 */
export function fractalNoise(seed: number, x: number, y: number, octaves: number): number {
  let sum = 0;
  let total = 0;
  for (let octave = 0, gain = 1, scale = 1; octave < octaves; octave++, gain /= 2, scale *= 2) {
    sum += gain * valueNoise(seed + 7919 * octave, x * scale, y * scale);
    total += gain;
  }
  return sum / total;
}

/** Points of a noise tile along one side; a power of two. */
export const NOISE_TILE = 1024;

/**
 * A square of value noise that repeats without a seam, for look-up in inner loops.
 * @param octaves Cell size in tile points (a power of two) and gain of each octave.
 * @returns NOISE_TILE * NOISE_TILE values, row-major, mean exactly 0, about -1..1 when the gains sum to 1.
 */
export function noiseTile(
  seed: number,
  octaves: readonly { readonly cell: number; readonly gain: number }[],
): Float32Array {
  const tile = new Float32Array(NOISE_TILE * NOISE_TILE);
  octaves.forEach(({ cell, gain }, octave) => {
    const cells = NOISE_TILE / cell;
    const at = (column: number, row: number): number =>
      hashLattice(seed + 7919 * octave, column % cells, row % cells) / 0x7fffffff - 1;
    for (let row = 0; row < NOISE_TILE; row++) {
      const r = Math.floor(row / cell);
      const v = row / cell - r;
      const sv = v * v * (3 - 2 * v);
      for (let c = 0; c < cells; c++) {
        const left = at(c, r) + (at(c, r + 1) - at(c, r)) * sv;
        const right = at(c + 1, r) + (at(c + 1, r + 1) - at(c + 1, r)) * sv;
        for (let i = 0; i < cell; i++) {
          const u = i / cell;
          tile[row * NOISE_TILE + c * cell + i] +=
            gain * (left + (right - left) * u * u * (3 - 2 * u));
        }
      }
    }
  });
  const mean = tile.reduce((sum, value) => sum + value, 0) / tile.length;
  for (let i = 0; i < tile.length; i++) tile[i] -= mean;
  return tile;
}
