import { seededRandom } from "../../src/numeric/random.ts";

const TABLE_SIZE = 1 << 16;

/** A fast stream of standard normal numbers: a seeded table read in seeded order. */
export function noiseStream(seed: number): () => number {
  const random = seededRandom(seed);
  const table = Float32Array.from({ length: TABLE_SIZE }, () => random.normal());
  let state = (seed * 2654435761 + 1) >>> 0 || 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return table[state & (TABLE_SIZE - 1)];
  };
}
