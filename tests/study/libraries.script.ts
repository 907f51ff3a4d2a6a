/** CIEDE2000 against culori on a million seeded pairs, half of them near. Run: npx tsx tests/study/libraries.script.ts */
import { differenceCiede2000 } from "culori";
import { ciede2000 } from "../../src/colour/ciede2000.ts";
import type { Triple } from "../../src/colour/triple.ts";
import { seededRandom } from "../../src/numeric/random.ts";

const PAIRS = 1_000_000;
const culori = differenceCiede2000();
const random = seededRandom(3);
const span = (low: number, high: number): number => low + (high - low) * random.uniform();
let worst = 0;
let left = 0;
for (let i = 0; i < PAIRS; i++) {
  const a: Triple = [span(0, 100), span(-90, 90), span(-90, 90)];
  const b: Triple =
    i % 2 === 0
      ? [span(0, 100), span(-90, 90), span(-90, 90)]
      : [a[0] + span(-1, 1), a[1] + span(-1, 1), a[2] + span(-1, 1)];
  const apart = Math.abs(Math.atan2(a[2], a[1]) - Math.atan2(b[2], b[1]));
  // Opposite hues: the formula jumps there, either branch is right.
  if (Math.abs(apart - Math.PI) < 0.007) {
    left++;
    continue;
  }
  const theirs = culori(
    { mode: "lab65", l: a[0], a: a[1], b: a[2] },
    { mode: "lab65", l: b[0], a: b[1], b: b[2] },
  );
  worst = Math.max(worst, Math.abs(theirs - ciede2000(a, b)));
}
console.log(
  `${String(PAIRS)} pairs, ${String(left)} with opposite hues left out: largest gap ${worst.toExponential(1)}`,
);
