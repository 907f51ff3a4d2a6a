import { describe, expect, test } from "vitest";
import type { LightSample } from "../../src/calibrate/fitLightField.ts";
import { fitLightField } from "../../src/calibrate/fitLightField.ts";
import { lightAt } from "../../src/calibrate/lightAt.ts";
import { lightCovariance, lightTerm } from "../../src/calibrate/lightTerm.ts";
import { unevenness } from "../../src/calibrate/unevenness.ts";
import { ciede2000 } from "../../src/colour/ciede2000.ts";
import { labToXyzD50, xyzD50ToLab } from "../../src/colour/lab.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { seededRandom } from "../../src/numeric/random.ts";

const WIDTH = 3000;
const HEIGHT = 2000;
/** Falls off to the right and to the corners, blue more than red. */
const truth = (x: number, y: number, c: number): number => {
  const [u, v] = [x / WIDTH - 0.5, y / HEIGHT - 0.5];
  return 0.8 * (1 - (0.06 + 0.02 * c) * u - 0.1 * (u * u + v * v) + 0.03 * u * v);
};
/** Places along the four borders of a sheet. */
const border = (count: number): [number, number][] =>
  Array.from({ length: count }, (_, i) => {
    const t = (4 * i) / count;
    const side = Math.floor(t);
    const along = t - side;
    if (side === 0) return [along * WIDTH, 0];
    if (side === 1) return [WIDTH, along * HEIGHT];
    if (side === 2) return [(1 - along) * WIDTH, HEIGHT];
    return [0, (1 - along) * HEIGHT];
  });
const samplesOf = (places: [number, number][]): LightSample[] =>
  places.map(([x, y]) => ({ x, y, linear: [truth(x, y, 0), truth(x, y, 1), truth(x, y, 2)] }));

describe("light field", () => {
  test("a quadratic fall-off seen along the borders is known in the middle too", () => {
    const field = fitLightField(samplesOf(border(40)));
    expect(field.rank).toBe(6);
    const middle = lightAt(field, WIDTH / 2, HEIGHT / 2);
    const corner = lightAt(field, WIDTH, HEIGHT);
    for (let c = 0; c < 3; c++)
      expect(corner[c] / middle[c]).toBeCloseTo(
        truth(WIDTH, HEIGHT, c) / truth(WIDTH / 2, HEIGHT / 2, c),
        9,
      );
  });

  test("stains on the border pull little", () => {
    const clean = samplesOf(border(40));
    const random = seededRandom(2);
    const noisy = clean.map((sample, i) => ({
      ...sample,
      linear: sample.linear.map(
        (value) => value * (i % 9 === 0 ? 0.8 : 1 + 0.002 * random.normal()),
      ) as unknown as Triple,
    }));
    const field = fitLightField(noisy);
    const expected = fitLightField(clean);
    for (const [x, y] of [
      [100, 100],
      [1500, 1000],
      [2900, 300],
    ] as const)
      // prettier-ignore
      for (let c = 0; c < 3; c++) {
        const ratio =
          (lightAt(field, x, y)[c] / lightAt(field, 1500, 1000)[c]) *
          (lightAt(expected, 1500, 1000)[c] / lightAt(expected, x, y)[c]);
        // Five of forty samples are 20 % too dark: plain least squares errs by 6 %.
        expect(Math.abs(ratio - 1)).toBeLessThan(0.01);
      }
    expect(field.residualShare).toBeLessThan(0.01);
  });

  test("the correction stops at 30 %", () => {
    const field = fitLightField(samplesOf(border(40)));
    const [far] = lightAt(field, 20 * WIDTH, 0);
    expect(far).toBe(0.7);
  });

  test("unevenness is the spread of light over a box", () => {
    const field = fitLightField(samplesOf(border(48)));
    expect(unevenness(field, [0, 0, WIDTH, HEIGHT])).toBeGreaterThan(0.1);
    expect(unevenness(field, [0, 0, WIDTH, HEIGHT])).toBeLessThan(0.25);
    expect(unevenness(field, [1400, 900, 200, 200])).toBeLessThan(0.02);
  });

  test("fewer than 24 samples and black ones are refused", () => {
    expect(() => fitLightField(samplesOf(border(23)))).toThrow(RangeError);
    const black = samplesOf(border(30)).map((sample): LightSample => ({ ...sample, linear: [0, 0, 0] })); // prettier-ignore
    expect(() => fitLightField(black)).toThrow(RangeError);
  });
});

describe("lighting term of the floor", () => {
  test("is what a change of light makes of a colour", () => {
    for (const lab of [
      [86, -2, 18],
      [50, 47, -9],
      [30, 0, 4],
    ] as const) {
      // prettier-ignore
      const [X, Y, Z] = labToXyzD50(lab);
      const lighter = xyzD50ToLab([X * 1.002, Y * 1.002, Z * 1.002]);
      // A change of 0.2 % is local to about its own share.
      expect(lightTerm(lab, 0.002) / ciede2000(lab, lighter)).toBeCloseTo(1, 2);
    }
  });

  test("its covariance lies along that change and holds u at 95 %", () => {
    const lab: Triple = [60, 30, 20];
    const u = 0.4;
    const covariance = lightCovariance(lab, u);
    const sdL = Math.sqrt(covariance[0]);
    // 1.96 standard deviations of the light give u.
    expect(lightTerm(lab, (1.959964 * sdL) / ((60 + 16) / 3))).toBeCloseTo(u, 9);
    expect(covariance[1] ** 2).toBeCloseTo(covariance[0] * covariance[4], 12);
  });
});
