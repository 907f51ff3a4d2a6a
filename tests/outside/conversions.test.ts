import { describe, expect, test } from "vitest";
import { adaptationMatrix, CAT02 } from "../../src/colour/adapt.ts";
import { labToXyz, xyzToLab } from "../../src/colour/lab.ts";
import { SRGB_TO_XYZ_D65, decodeSrgb, encodeSrgb } from "../../src/colour/srgb.ts";
import { srgbToLabD50 } from "../support/srgbToLabD50.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { WHITE_D50, WHITE_D65, whiteFromChromaticity } from "../../src/colour/whites.ts";
import { multiply3Vector } from "../../src/numeric/matrix3.ts";

// Whites and results of the adaptation tests of the library colour-science/colour (BSD-3-Clause), test_vonkries.py.
const WHITE_FROM: Triple = [0.95045593, 1, 1.08905775];
const WHITE_TO: Triple = [0.96429568, 1, 0.8251046];

describe("linear Bradford D65 to D50 (colour-science/colour, test_vonkries.py, printed to 8 decimals)", () => {
  const matrix = adaptationMatrix(WHITE_FROM, WHITE_TO);

  test("the matrix", () => {
    const printed = [
      1.04792979, 0.02294687, -0.05019227, 0.02962781, 0.99043443, -0.0170738, -0.00924304,
      0.01505519, 0.75187428,
    ];
    matrix.forEach((value, i) => expect(value).toBeCloseTo(printed[i], 7));
  });

  test("a colour, and plain XYZ scaling does not pass for it", () => {
    const adapted = multiply3Vector(matrix, [0.20654008, 0.12197225, 0.05136952]);
    [0.21666003, 0.12604777, 0.03855068].forEach((value, i) =>
      expect(adapted[i]).toBeCloseTo(value, 7),
    );
    expect(Math.abs(adapted[0] - 0.20954755)).toBeGreaterThan(0.005);
  });

  test("CAT02, first row (same file)", () => {
    const cat02 = adaptationMatrix(WHITE_FROM, WHITE_TO, CAT02);
    [1.04257389, 0.03089108, -0.05281257].forEach((value, i) =>
      expect(cat02[i]).toBeCloseTo(value, 7),
    );
  });
});

describe("XYZ to CIELAB (colour-science/colour, test_cie_lab.py, tolerance 1e-6 as stated there)", () => {
  const rows: [Triple, [number, number], Triple][] = [
    [
      [0.20654008, 0.12197225, 0.05136952],
      [0.3127, 0.329],
      [41.52787529, 52.63858304, 26.92317922],
    ],
    [
      [0.1422201, 0.23042768, 0.10495772],
      [0.3127, 0.329],
      [55.11636304, -41.08791787, 30.91825778],
    ],
    [
      [0.0781878, 0.06157201, 0.28099326],
      [0.3127, 0.329],
      [29.8056552, 20.01830466, -48.34913874],
    ],
    [
      [0.20654008, 0.12197225, 0.05136952],
      [0.3457, 0.3585],
      [41.52787529, 51.19354174, 19.91843098],
    ],
    [
      [0.20654008, 0.12197225, 0.05136952],
      [0.44757, 0.40745],
      [41.52787529, 38.48089305, -5.73295122],
    ],
  ];
  test.each(rows)("%j under xy %j", (xyz, [x, y], lab) => {
    const white = whiteFromChromaticity(x, y);
    const computed = xyzToLab(xyz, white);
    lab.forEach((value, i) => expect(Math.abs(computed[i] - value)).toBeLessThan(1e-6));
    labToXyz(computed, white).forEach((value, i) => expect(value).toBeCloseTo(xyz[i], 12));
  });
});

describe("sRGB (IEC 61966-2-1)", () => {
  test("the matrix agrees with the printed one to its 4 decimals", () => {
    const printed = [0.4124, 0.3576, 0.1805, 0.2126, 0.7152, 0.0722, 0.0193, 0.1192, 0.9505];
    // The standard rounds its matrix; recomputed from the primaries it differs by up to 1 unit of the 4th decimal.
    SRGB_TO_XYZ_D65.forEach((value, i) => expect(Math.abs(value - printed[i])).toBeLessThan(1e-4));
  });

  test("decode and encode are inverse on every 8-bit code", () => {
    for (let code = 0; code < 256; code++)
      expect(encodeSrgb(decodeSrgb(code / 255)) * 255).toBeCloseTo(code, 4);
  });

  test("pure blue: D65 and Bradford D50 CIELAB are the two published triples, never mixed (Pillow issue 8834)", () => {
    const d65 = xyzToLab(multiply3Vector(SRGB_TO_XYZ_D65, [0, 0, 1]), WHITE_D65);
    const d50 = srgbToLabD50([0, 0, 1]);
    // Printed to 3 decimals from the rounded matrix of the standard: 0.02 covers the rounding.
    [32.297, 79.188, -107.86].forEach((v, i) => expect(Math.abs(d65[i] - v)).toBeLessThan(0.02));
    [29.564, 68.287, -112.034].forEach((v, i) => expect(Math.abs(d50[i] - v)).toBeLessThan(0.02));
  });

  test.each([
    [119, 50.034],
    [128, 53.585],
    [188, 76.246],
  ])("grey %i has L* %f", (code, lightness) => {
    const c = code / 255;
    expect(srgbToLabD50([c, c, c])[0]).toBeCloseTo(lightness, 3);
  });

  test("the white of every route is Lab 100 0 0 within 0.001 (one white constant, csswg-drafts issue 2492)", () => {
    const white = srgbToLabD50([1, 1, 1]);
    [100, 0, 0].forEach((v, i) => expect(Math.abs(white[i] - v)).toBeLessThan(0.001));
    expect(xyzToLab(WHITE_D50, WHITE_D50)).toEqual([100, 0, 0]);
  });
});
