import Color from "colorjs.io";
import { converter, differenceCiede2000 } from "culori";
import { describe, expect, test } from "vitest";
import { adaptationMatrix } from "../../src/colour/adapt.ts";
import { ciede2000 } from "../../src/colour/ciede2000.ts";
import { xyzToLab } from "../../src/colour/lab.ts";
import { SRGB_TO_XYZ_D65, decodeSrgb } from "../../src/colour/srgb.ts";
import { srgbToLabD50 } from "../support/srgbToLabD50.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { WHITE_D65, whiteFromChromaticity } from "../../src/colour/whites.ts";
import { multiply3, multiply3Vector } from "../../src/numeric/matrix3.ts";
import { seededRandom } from "../../src/numeric/random.ts";
import { colourPairs } from "../support/colourPairs.ts";

// The million pairs of each library run in tests/study/libraries.script.ts.
describe("CIEDE2000 on seeded pairs, random and near, off the jump at opposite hues", () => {
  // Both sides in double precision: only the order of operations differs. Measured: 2e-13.
  const TOLERANCE = 1e-9;

  // `lab65` leaves the numbers as they are; the library's `lab` would take them to D65 first.
  test("culori 4, 300,000 pairs", () => {
    const culori = differenceCiede2000();
    let worst = 0;
    for (const [a, b] of colourPairs(300_000, 1)) {
      const theirs = culori(
        { mode: "lab65", l: a[0], a: a[1], b: a[2] },
        { mode: "lab65", l: b[0], a: b[1], b: b[2] },
      );
      worst = Math.max(worst, Math.abs(theirs - ciede2000(a, b)));
    }
    expect(worst).toBeLessThan(TOLERANCE);
  });

  test("colorjs.io 0.7 (space lab, D50), 50,000 pairs", () => {
    let worst = 0;
    for (const [a, b] of colourPairs(50_000, 2)) {
      const theirs = new Color("lab", [...a]).deltaE(new Color("lab", [...b]), "2000");
      worst = Math.max(worst, Math.abs(theirs - ciede2000(a, b)));
    }
    expect(worst).toBeLessThan(TOLERANCE);
  });
});

const toLab = converter("lab");
const toLab65 = converter("lab65");

describe("sRGB to CIELAB on 2000 seeded colours", () => {
  const random = seededRandom(4);
  const colours = Array.from({ length: 2000 }, (): Triple => [
    random.uniform(),
    random.uniform(),
    random.uniform(),
  ]);
  const labD65 = ([r, g, b]: Triple): Triple =>
    xyzToLab(
      multiply3Vector(SRGB_TO_XYZ_D65, [decodeSrgb(r), decodeSrgb(g), decodeSrgb(b)]),
      WHITE_D65,
    );
  const worst = (ours: (rgb: Triple) => Triple, theirs: (rgb: Triple) => Triple): number =>
    Math.max(
      ...colours.flatMap((rgb) => {
        const other = theirs(rgb);
        return ours(rgb).map((value, i) => Math.abs(value - other[i]));
      }),
    );
  const byCulori =
    (mode: "lab" | "lab65") =>
    ([r, g, b]: Triple): Triple => {
      const lab =
        mode === "lab" ? toLab({ mode: "rgb", r, g, b }) : toLab65({ mode: "rgb", r, g, b });
      return [lab.l, lab.a, lab.b];
    };
  const byColorjs =
    (space: "lab" | "lab-d65") =>
    (rgb: Triple): Triple => {
      const [l, a, b] = new Color("srgb", [...rgb]).to(space).coords;
      return [Number(l), Number(a), Number(b)];
    };

  // Double precision; measured 6e-14.
  const ROUNDING = 1e-9;

  test("D65: culori and colorjs.io", () => {
    expect(worst(labD65, byCulori("lab65"))).toBeLessThan(ROUNDING);
    expect(worst(labD65, byColorjs("lab-d65"))).toBeLessThan(ROUNDING);
  });

  test("D50 by linear Bradford: culori and colorjs.io, under their white and under this product's", () => {
    // Theirs is D50 from xy 0.3457 0.3585, with a Bradford matrix printed from it: good to 4e-5 in culori, to 1e-13 in colorjs.io.
    const white = whiteFromChromaticity(0.3457, 0.3585);
    const toD50 = multiply3(adaptationMatrix(WHITE_D65, white), SRGB_TO_XYZ_D65);
    const labD50 = ([r, g, b]: Triple): Triple =>
      xyzToLab(multiply3Vector(toD50, [decodeSrgb(r), decodeSrgb(g), decodeSrgb(b)]), white);
    for (const theirs of [byCulori("lab"), byColorjs("lab")]) {
      expect(worst(labD50, theirs)).toBeLessThan(1e-4);
      // The other D50, 0.96422 1 0.82521, moves Lab after adaptation by 0.01 at most.
      expect(worst(srgbToLabD50, theirs)).toBeLessThan(0.011);
    }
  });
});
