/**
 * Cells that keep their distance from every seed: erosion by a disc, exact in the Euclidean distance of cell centres.
 * @param seeds Row-major, width * height; non-zero = seed. Cells beyond the frame are no seeds.
 * @param radiusCells Distance to keep, > 0, below 250.
 * @returns 1 where the nearest seed is at least `radiusCells` away, else 0.
 */
export function farFrom(
  seeds: Uint8Array,
  width: number,
  height: number,
  radiusCells: number,
): Uint8Array {
  if (!(radiusCells > 0 && radiusCells < 250))
    throw new RangeError(`Expected a radius between 0 and 250 cells, received ${radiusCells}.`);
  const cap = Math.ceil(radiusCells);
  const reach = cap - 1; // a seed that far aside can still be nearer than the radius
  const radius2 = radiusCells * radiusCells;
  // Distance to the nearest seed of the same column, capped.
  const vertical = new Uint8Array(width * height);
  for (let x = 0; x < width; x++) vertical[x] = seeds[x] === 0 ? cap : 0;
  for (let i = width; i < width * height; i++)
    vertical[i] = seeds[i] === 0 ? Math.min(cap, vertical[i - width] + 1) : 0;
  for (let i = width * (height - 1) - 1; i >= 0; i--)
    if (vertical[i + width] + 1 < vertical[i]) vertical[i] = vertical[i + width] + 1;

  const out = new Uint8Array(width * height);
  for (let y = 0; y < height; y++) {
    const row = y * width;
    let near = 0; // columns within reach that have any seed near
    for (let x = 0; x < Math.min(reach, width); x++) if (vertical[row + x] < cap) near++;
    for (let x = 0; x < width; x++) {
      if (x + reach < width && vertical[row + x + reach] < cap) near++;
      if (x - reach - 1 >= 0 && vertical[row + x - reach - 1] < cap) near--;
      if (near === 0) {
        out[row + x] = 1;
        continue;
      }
      const from = Math.max(0, x - reach);
      const to = Math.min(width - 1, x + reach);
      let far = 1;
      for (let u = from; u <= to; u++) {
        const v = vertical[row + u];
        if (v * v + (u - x) * (u - x) < radius2) {
          far = 0;
          break;
        }
      }
      out[row + x] = far;
    }
  }
  return out;
}
