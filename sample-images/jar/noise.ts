import { seededRandom } from "../../src/numeric/random.ts";

const TABLE_SIZE = 1 << 16;

/** Fast standard normal numbers: runs of a seeded table, each from a seeded place. Fills what it is given. */
export function noiseStream(seed: number): (out: Float32Array) => void {
  const random = seededRandom(seed);
  const table = Float32Array.from({ length: TABLE_SIZE }, () => random.normal());
  return (out) => {
    let at = random.below(TABLE_SIZE);
    for (let i = 0; i < out.length; i++) {
      out[i] = table[at];
      at = (at + 1) & (TABLE_SIZE - 1);
    }
  };
}
