import { describe, expect, test } from "vitest";
import { absorbanceSigma } from "../../../src/jar/optics/absorbanceSigma.ts";
import { liquidOptics, type StripeLight } from "../../../src/jar/optics/liquidOptics.ts";
import { SOFT, softMix } from "../../../src/print/softMix.ts";
import { pathLengthCm } from "../../../src/jar/place/station.ts";
import { turbidityIndex } from "../../../src/jar/turbidity/turbidityIndex.ts";

/** The published forward model of one channel, written out: I = E (R g T + V + G), the stripes beside the jar without g, T and V. */
function stripes(options: {
  absorption?: number;
  scatteringLoss?: number;
  veil?: number;
  glass?: number;
  glare?: number;
  light?: number;
  pathCm?: number;
  passes?: number;
}): StripeLight {
  const { absorption = 0, scatteringLoss = 0, veil = 0, glass = 0.9, glare = 0.01 } = options;
  const { light = 1, pathCm = 5, passes = 1 } = options;
  const [white, black] = [0.85, 0.05];
  const T = Math.exp(-passes * (absorption + scatteringLoss) * pathCm);
  const E = light / (light * white);
  const contrast = E * (white - black) * glass * T;
  const beside = E * (white - black);
  const blackStripe = E * (black * glass * T + veil + glare);
  const rho = black / (white - black);
  return {
    wide: contrast,
    wideBeside: beside,
    narrow: contrast,
    narrowBeside: beside,
    veil: blackStripe - rho * contrast,
  };
}

describe("attenuation", () => {
  test("is that of the forward model, decadic per cm, whatever glass, glare, light, path and passes", () => {
    for (const pathCm of [2, 5, 10])
      for (const passes of [1, 2])
        for (const absorption of [0.01, 0.1, 0.3]) {
          const jar = { glass: 0.83, glare: 0.03, pathCm, passes };
          const sample = stripes({ ...jar, absorption, light: 0.7 });
          const found = liquidOptics(sample, stripes({ ...jar, light: 1.3 }), pathCm, passes);
          expect(found.wide).toBeCloseTo(absorption / Math.LN10, 12);
          expect(found.narrow).toBeCloseTo(absorption / Math.LN10, 12);
          expect(found.beta).toBeCloseTo(0, 12);
          expect(found.absorbance).toBeCloseTo(absorption / Math.LN10, 12);
        }
  });

  test("is nothing without contrast, never a number", () => {
    const gone = { ...stripes({}), wide: 0, narrow: -1e-6 };
    const found = liquidOptics(gone, stripes({}), 5, 1);
    expect(Number.isFinite(found.wide)).toBe(false);
    expect(found.narrow).toBeNaN();
  });
});

describe("turbidity index", () => {
  test("undoes the published veil b (1 - exp(-2 k l)) / (2 k): linear in b, whatever the absorption", () => {
    const pathCm = 5;
    for (const k of [1e-9, 0.02, 0.15, 0.4])
      for (const b of [0.001, 0.01]) {
        const veil = (b * -Math.expm1(-2 * k * pathCm)) / (2 * k);
        expect(turbidityIndex(veil, k / Math.LN10, pathCm)).toBeCloseTo(b / 2, 9);
      }
  });

  test("has the limit 1 / (2 l) of its factor where nothing is absorbed", () => {
    expect(turbidityIndex(0.1, 0, 5)).toBeCloseTo(0.01, 12);
    expect(turbidityIndex(0.1, 1e-12, 5)).toBeCloseTo(0.01, 9);
  });

  test("takes its share of the attenuation off the absorbance: 1.55 times the index", () => {
    const found = liquidOptics(stripes({ absorption: 0.1, veil: 0.02 }), stripes({}), 5, 1);
    expect(found.absorbance).toBeCloseTo(found.wide - 1.55 * found.beta, 12);
    expect(found.beta).toBeGreaterThan(0.002);
  });
});

test("uncertainty: 2 % tone, 3 % camera, a quarter of the particles' part and a floor, in quadrature", () => {
  expect(absorbanceSigma(0, 0)).toBeCloseTo(0.0005, 12);
  expect(absorbanceSigma(0.1, 0.01)).toBeCloseTo(
    Math.hypot(0.002, 0.003, 0.25 * 1.55 * 0.01, 0.0005),
    12,
  );
  // A scattered photo widens the floor, a quiet one does not narrow it.
  expect(absorbanceSigma(0, 0, 0.002)).toBeCloseTo(0.002, 12);
  expect(absorbanceSigma(0, 0, 0.0001)).toBeCloseTo(0.0005, 12);
});

test("the band mix keeps white: its rows sum to 1", () => {
  for (let row = 0; row < 3; row++)
    expect(SOFT[3 * row] + SOFT[3 * row + 1] + SOFT[3 * row + 2]).toBeCloseTo(1, 12);
  expect(softMix([0.5, 0.5, 0.5])).toEqual(
    [0.5, 0.5, 0.5].map((v) => expect.closeTo(v, 12) as number),
  );
});

test("a round jar's path is 0.97 of its inner diameter, a flat one's its depth", () => {
  expect(pathLengthCm({ jar: "round", pathCm: 7 })).toBeCloseTo(6.79, 12);
  expect(pathLengthCm({ jar: "flat", pathCm: 5 })).toBe(5);
});
