/**
 * Euclidean distance of every cell to the nearest seed, in cells, between centres.
 * @param seeds Row-major, width * height; non-zero = seed.
 * @returns Infinity everywhere when there is no seed.
 * @see Felzenszwalb & Huttenlocher, Theory of Computing 8, 415-428 (2012): distances along columns, then along each row the lower
 * envelope of parabolas.
 */
export function distanceTo(seeds: Uint8Array, width: number, height: number): Float32Array {
  const size = width * height;
  const out = new Float32Array(size).fill(Infinity);
  // Distance along the column, row by row so that memory is read in order.
  for (let i = 0; i < size; i++)
    if (seeds[i] !== 0) out[i] = 0;
    else if (i >= width) out[i] = out[i - width] + 1;
  for (let i = size - width - 1; i >= 0; i--)
    if (out[i + width] + 1 < out[i]) out[i] = out[i + width] + 1;

  const square = new Float64Array(width);
  const vertex = new Int32Array(width);
  const bound = new Float64Array(width + 1);
  for (let first = 0; first < size; first += width) {
    let last = -1;
    for (let q = 0; q < width; q++) {
      const v = out[first + q];
      if (v === Infinity) continue;
      square[q] = v * v;
      let from = -Infinity;
      while (last >= 0) {
        const p = vertex[last];
        from = (square[q] + q * q - square[p] - p * p) / (2 * (q - p));
        if (from > bound[last]) break;
        last--;
        from = -Infinity;
      }
      last++;
      vertex[last] = q;
      bound[last] = from;
    }
    if (last < 0) continue;
    bound[last + 1] = Infinity;
    for (let q = 0, k = 0; q < width; q++) {
      while (bound[k + 1] < q) k++;
      const p = vertex[k];
      out[first + q] = Math.sqrt((q - p) * (q - p) + square[p]);
    }
  }
  return out;
}
