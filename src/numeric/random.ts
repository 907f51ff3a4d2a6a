import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { skipN } from "pure-rand/utils/skipN";

/** A seeded source of random numbers: the same seed gives the same numbers on every machine. */
export interface Random {
  /** Uniform in [0, 1). */
  uniform(): number;
  /** Integer in [0, n). */
  below(n: number): number;
  /** Standard normal, by Box and Muller. */
  normal(): number;
}

/** The first draws of small seeds are correlated in this generator; they are thrown away. */
const DRAWS_SKIPPED = 64;

/**
 * A generator of our own interface over xoroshiro128+.
 * @param seed Any integer.
 */
export function seededRandom(seed: number): Random {
  const generator = xoroshiro128plus(seed);
  skipN(generator, DRAWS_SKIPPED);
  const uniform = (): number =>
    ((generator.next() >>> 6) * 2 ** 27 + (generator.next() >>> 5)) / 2 ** 53;
  return {
    uniform,
    below: (n) => Math.floor(uniform() * n),
    normal: () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform()),
  };
}
