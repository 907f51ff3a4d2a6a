import type { Triple } from "../../src/numeric/triple.ts";
import { seededRandom } from "../../src/numeric/random.ts";

/** The formula jumps where the hues are exactly opposite: there either branch is right. Pairs nearer to it than this are left out. */
const JUMP_DEGREES = 0.4;

function atJump(one: Triple, other: Triple): boolean {
  const hue = ([, a, b]: Triple): number => (Math.atan2(b, a) * 180) / Math.PI;
  return Math.abs((Math.abs(hue(one) - hue(other)) % 360) - 180) < JUMP_DEGREES;
}

/** Pairs of CIELAB colours, random and near in turn; about one in 900 lies at the jump and is left out. */
export function* colourPairs(
  count: number,
  seed: number,
): Generator<readonly [one: Triple, other: Triple]> {
  const random = seededRandom(seed);
  const span = (low: number, high: number): number => low + (high - low) * random.uniform();
  const colour = (): Triple => [span(0, 100), span(-90, 90), span(-90, 90)];
  for (let i = 0; i < count; i++) {
    const one = colour();
    const other: Triple =
      i % 2 === 0 ? colour() : [one[0] + span(-1, 1), one[1] + span(-1, 1), one[2] + span(-1, 1)];
    if (!atJump(one, other)) yield [one, other];
  }
}
