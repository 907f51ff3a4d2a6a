import { describe, expect, test } from "vitest";
import { xyzD50ToLab } from "../../src/colour/lab.ts";
import { lightToLab } from "../../src/colour/lightToLab.ts";
import { lightToLabTables } from "../../src/colour/lightToLabTables.ts";
import { lightToLabSimd } from "../../src/colour/simd/lightToLabSimd.ts";
import { startKernel } from "../../src/colour/simd/startKernel.ts";
import { SRGB_TO_XYZ_D50 } from "../../src/colour/srgb.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { WHITE_D50 } from "../../src/colour/whites.ts";
import { multiply3Vector } from "../../src/numeric/matrix3.ts";
import { seededRandom } from "../../src/numeric/random.ts";

const simd = startKernel();
if (simd === null) throw new Error("Expected a machine with vectors.");

const OFFSET: Triple = [0.002, -0.001, 0.003];
const ROWS = WHITE_D50.flatMap((white, k) =>
  [...SRGB_TO_XYZ_D50.slice(3 * k, 3 * k + 3), OFFSET[k]].map((value) => value / white),
);

const planes = (length: number) =>
  [new Float32Array(length), new Float32Array(length), new Float32Array(length)] as const;

/** Linear light, as much of it dark as light; some below 0 and above 1, as offsets and glare leave it. */
function light(length: number) {
  const random = seededRandom(23);
  const out = planes(length);
  for (const plane of out)
    for (let i = 0; i < length; i++) plane[i] = 1.1 * random.uniform() ** 3 - 0.002;
  return out;
}

const KERNELS = [
  // Two units in the last place of a cube root near 1, times 500.
  [
    "vectors",
    (...given: Parameters<typeof lightToLabTables>) => lightToLabSimd(simd, ...given),
    2e-4,
  ],
  // The linear interpolation of the tables: 2e-7 in f from t = 0.005 on, ten times that just above black.
  ["tables", lightToLabTables, 2e-3],
] as const;

describe.each(KERNELS)("%s", (_name, toLab, tolerance) => {
  // Longer than two blocks, and no multiple of four.
  const given = light(10_001);

  test("as the formula", () => {
    const [L, a, b] = toLab(given, ROWS, planes(10_001));
    let worst = 0;
    for (let i = 0; i < L.length; i++) {
      const [X, Y, Z] = multiply3Vector(SRGB_TO_XYZ_D50, [given[0][i], given[1][i], given[2][i]]);
      const lab = xyzD50ToLab([X + OFFSET[0], Y + OFFSET[1], Z + OFFSET[2]]);
      for (const [k, value] of [L[i], a[i], b[i]].entries())
        worst = Math.max(worst, Math.abs(value - lab[k]));
    }
    expect(worst).toBeLessThan(tolerance);
  });

  test("in place, and NaN stays where it is", () => {
    const expected = toLab(given, ROWS, planes(10_001));
    const own = light(10_001);
    own[1][7] = NaN;
    expect(toLab(own, ROWS, own)).toBe(own);
    for (const plane of own) expect(plane[7]).toBeNaN();
    for (const [k, plane] of own.entries())
      expect(plane.filter((_, i) => i !== 7)).toEqual(expected[k].filter((_, i) => i !== 7));
  });
});

test("white is 100, 0, 0; black is 0, 0, 0", () => {
  const [X, Y, Z] = WHITE_D50;
  const out = planes(2);
  const whiteAndBlack = out.map(() => Float32Array.of(1, 0)) as unknown as typeof out;
  lightToLab(whiteAndBlack, [X, 0, 0, 0, Y, 0, 0, 0, Z], [0, 0, 0], out);
  const rounded = out.map((plane) =>
    Array.from(plane, (value) => Math.round(value * 1e4) / 1e4 + 0),
  );
  expect(rounded).toEqual([
    [100, 0],
    [0, 0],
    [0, 0],
  ]);
});

test("planes of another length are refused", () => {
  expect(() => lightToLab(planes(3), SRGB_TO_XYZ_D50, OFFSET, planes(2))).toThrow(RangeError);
});
