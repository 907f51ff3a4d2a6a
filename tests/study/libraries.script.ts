/**
 * CIEDE2000 against culori and colorjs.io on a million seeded pairs, half of them near, the jump at opposite hues left out.
 * Run: npx tsx tests/study/libraries.script.ts
 */
import Color from "colorjs.io";
import { differenceCiede2000 } from "culori";
import { ciede2000 } from "../../src/colour/ciede2000.ts";
import { colourPairs } from "../support/colourPairs.ts";

const PAIRS = 1_000_000;
const culori = differenceCiede2000();
let compared = 0;
let worstCulori = 0;
let worstColorjs = 0;
for (const [a, b] of colourPairs(PAIRS, 3)) {
  const ours = ciede2000(a, b);
  // `lab65` leaves the numbers as they are; the library's `lab` would take them to D65 first.
  const theirs = culori(
    { mode: "lab65", l: a[0], a: a[1], b: a[2] },
    { mode: "lab65", l: b[0], a: b[1], b: b[2] },
  );
  worstCulori = Math.max(worstCulori, Math.abs(theirs - ours));
  const others = new Color("lab", [...a]).deltaE(new Color("lab", [...b]), "2000");
  worstColorjs = Math.max(worstColorjs, Math.abs(others - ours));
  compared++;
}
console.log(
  `${String(PAIRS)} pairs, ${String(PAIRS - compared)} with opposite hues left out: largest gap ${worstCulori.toExponential(1)} to culori, ${worstColorjs.toExponential(1)} to colorjs.io`,
);
