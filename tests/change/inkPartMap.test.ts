import { describe, expect, test } from "vitest";
import { inkPartMap, paperShift } from "../../src/change/inkPartMap.ts";
import { ciede2000 } from "../../src/colour/ciede2000.ts";
import type { LabPlanes } from "../../src/change/differenceMap.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { seededRandom } from "../../src/numeric/random.ts";
import { expectUntouched } from "../../src/print/expectUntouched.ts";

const BEFORE: Triple = [80, 3, 17];
const AFTER: Triple = [82.5, 2, 13];
const SURFACES = [
  { film: 0, gloss: 0 },
  { film: 1, gloss: 0 },
  { film: 0.4, gloss: 0.004 },
];

const planes = (labs: readonly Triple[]): LabPlanes => [
  Float32Array.from(labs, ([L]) => L),
  Float32Array.from(labs, ([, a]) => a),
  Float32Array.from(labs, ([, , b]) => b),
];

/** Prints of a cover: between its paper and a dark. */
function drawInk(random: ReturnType<typeof seededRandom>): Triple {
  const L = 22 + 50 * random.uniform();
  const chroma = 45 * random.uniform();
  const hue = 2 * Math.PI * random.uniform();
  return [L, chroma * Math.cos(hue), 8 + chroma * Math.sin(hue)];
}

describe.each(SURFACES)("paper part on film $film, gloss $gloss", (surface) => {
  const change = { before: BEFORE, after: AFTER, surface };

  test("between the corners of its lattice it is the model within 0.2", () => {
    const random = seededRandom(11);
    const at = paperShift(change);
    const model = expectUntouched(BEFORE);
    const shift = new Float64Array(3);
    for (let k = 0; k < 25; k++) {
      const ink = drawInk(random);
      at(...ink, shift);
      const expected = model(ink)(AFTER)(surface);
      const seen: Triple = [ink[0] + shift[0], ink[1] + shift[1], ink[2] + shift[2]];
      // Below the floor of any scanner pair (0.2 for one ink), and far below what the model itself is worth.
      expect(ciede2000(expected, seen)).toBeLessThan(0.2);
    }
  });
});

describe("map of the ink part", () => {
  const surface = SURFACES[0];
  const change = { before: BEFORE, after: AFTER, surface };
  const RED: Triple = [50, 45, 30];
  const untouched = expectUntouched(BEFORE)(RED)(AFTER)(surface);
  const towards = (share: number): Triple => [
    untouched[0] + share * (AFTER[0] - untouched[0]),
    untouched[1] + share * (AFTER[1] - untouched[1]),
    untouched[2] + share * (AFTER[2] - untouched[2]),
  ];
  const after = [untouched, towards(0.1), towards(-0.1), untouched];
  const view = { before: planes([RED, RED, RED, RED]), after: planes(after) };
  const map = inkPartMap(view, Float32Array.of(1, 4, 4, NaN), change);

  test("an untouched ink shows nothing, a faded one what it lost, a darkened one nothing", () => {
    expect(map[0]).toBeLessThan(0.2);
    expect(map[1]).toBeCloseTo(ciede2000(untouched, towards(0.1)), 0);
    expect(map[1]).toBeGreaterThan(2);
    expect(map[2]).toBe(0);
  });

  test("what was not measured stays unknown", () => {
    expect(map[3]).toBeNaN();
  });
});
