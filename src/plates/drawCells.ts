import { seededRandom } from "../numeric/random.ts";

/** `count` of the indices, or all of them, by a seeded shuffle; in rising order. */
export function drawCells(indices: Int32Array, count: number, seed: number): Int32Array {
  if (indices.length <= count) return indices;
  const random = seededRandom(seed);
  const shuffled = indices.slice();
  for (let i = 0; i < count; i++) {
    const j = i + random.below(shuffled.length - i);
    [shuffled[i], shuffled[j]] = [shuffled[j], shuffled[i]];
  }
  return shuffled.slice(0, count).sort();
}
