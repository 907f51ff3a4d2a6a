import Color from "colorjs.io";
import { differenceCiede2000 } from "culori";
import { expect, test } from "vitest";
import { ciede2000 } from "../../src/colour/ciede2000.ts";
import type { Triple } from "../../src/colour/triple.ts";
import { seededRandom } from "../../src/numeric/random.ts";

const culori = differenceCiede2000();

/** The formula jumps where the hues are exactly opposite: either branch is right there. */
const JUMP_DEGREES = 0.1;

function opposite(a: Triple, b: Triple): boolean {
  const hue = ([, x, y]: Triple): number => (Math.atan2(y, x) * 180) / Math.PI;
  const apart = Math.abs(hue(a) - hue(b)) % 360;
  return Math.abs(apart - 180) < 4 * JUMP_DEGREES;
}

/** Random and near pairs in turn. */
function* pairs(count: number, seed: number): Generator<readonly [Triple, Triple]> {
  const random = seededRandom(seed);
  const span = (low: number, high: number): number => low + (high - low) * random.uniform();
  const colour = (): Triple => [span(0, 100), span(-90, 90), span(-90, 90)];
  for (let i = 0; i < count; i++) {
    const one = colour();
    const other: Triple =
      i % 2 === 0 ? colour() : [one[0] + span(-1, 1), one[1] + span(-1, 1), one[2] + span(-1, 1)];
    if (!opposite(one, other)) yield [one, other];
  }
}

// `lab65` leaves the numbers as they are; the library's `lab` would take them to D65 first.
test("CIEDE2000 against culori 4 on 300,000 seeded pairs, random and near", () => {
  let worst = 0;
  for (const [a, b] of pairs(300_000, 1)) {
    const theirs = culori(
      { mode: "lab65", l: a[0], a: a[1], b: a[2] },
      { mode: "lab65", l: b[0], a: b[1], b: b[2] },
    );
    worst = Math.max(worst, Math.abs(theirs - ciede2000(a, b)));
  }
  // Both in double precision: only the order of operations differs.
  expect(worst).toBeLessThan(1e-9);
});

test("CIEDE2000 against colorjs.io 0.7 (space lab, D50) on 10,000 seeded pairs", () => {
  let worst = 0;
  for (const [a, b] of pairs(10_000, 2)) {
    const theirs = new Color("lab", [...a]).deltaE(new Color("lab", [...b]), "2000");
    worst = Math.max(worst, Math.abs(theirs - ciede2000(a, b)));
  }
  expect(worst).toBeLessThan(1e-9);
});
