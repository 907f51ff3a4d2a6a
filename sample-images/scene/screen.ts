/** A halftone screen: round dots on a square grid. */
export interface Screen {
  readonly linesPerInch: number;
  readonly angleDegrees: number;
}

/** Screens of yellow, red, blue and black, coarse as in the period; the angles keep the inks from beating. */
export const SCREENS: readonly Screen[] = [
  { linesPerInch: 75, angleDegrees: 0 },
  { linesPerInch: 75, angleDegrees: 75 },
  { linesPerInch: 75, angleDegrees: 15 },
  { linesPerInch: 75, angleDegrees: 45 },
];

/** Points of the threshold tile along one side; a power of two. */
export const TILE = 256;

/**
 * Thresholds of one screen cell: the dot function (cos a + cos b) as a rank 0..1, so that the share of the cell below c is exactly c.
 * @returns TILE * TILE values, row-major.
 */
export const THRESHOLDS: Float32Array = (() => {
  const spot = new Float64Array(TILE * TILE);
  for (let row = 0; row < TILE; row++)
    for (let column = 0; column < TILE; column++)
      spot[row * TILE + column] =
        Math.cos((2 * Math.PI * (column + 0.5)) / TILE) +
        Math.cos((2 * Math.PI * (row + 0.5)) / TILE);
  const order = Array.from(spot.keys()).sort((p, q) => spot[q] - spot[p] || p - q);
  const rank = new Float32Array(TILE * TILE);
  order.forEach((point, i) => (rank[point] = (i + 0.5) / order.length));
  return rank;
})();

/**
 * The level to compare a threshold with, so that the softened comparison clamp((level - rank) / softness + 0.5) still covers exactly
 * `coverage` of a cell on average, near 0 and 1 too.
 * @param softness Width of the ramp in ranks, above 0, at most 1.
 */
export function softLevel(coverage: number, softness: number): number {
  const half = softness / 2;
  if (coverage < half) return Math.sqrt(2 * softness * Math.max(0, coverage)) - half;
  if (coverage > 1 - half) return 1 + half - Math.sqrt(2 * softness * Math.max(0, 1 - coverage));
  return coverage;
}
