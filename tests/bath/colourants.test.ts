import { describe, expect, test } from "vitest";
import {
  BAND_FIRST_NM,
  BAND_STEP_NM,
  type Colourant,
  DYES,
  type Dye,
  SOFT,
} from "../../calibration/colourants.ts";
import { bandAbsorbance, weakResponse } from "../../src/print/bandAbsorbance.ts";
import { BAND_WEIGHTS, colourantSpectrum, soilSpectrum } from "../../src/print/spectra.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { RESPONSES } from "../support/responses.ts";

const spectrumOf = (name: Colourant | "soil", slope = 0.014) =>
  name === "soil" ? soilSpectrum(slope) : colourantSpectrum(name);

describe.each(RESPONSES)("$name", ({ name, rgb, strongest, v, broad }) => {
  const e = spectrumOf(name);

  test("weak response of the SOFT bands, within 0.01 of the table or 2 %", () => {
    weakResponse(e).forEach((value, c) =>
      expect(Math.abs(value - rgb[c])).toBeLessThan(Math.max(0.01, 0.02 * rgb[c])),
    );
  });

  test("variance inside the strongest band, within 0.03", () => {
    const w = BAND_WEIGHTS[strongest];
    const first = w.reduce((sum, x, i) => sum + x * e[i], 0);
    const second = w.reduce((sum, x, i) => sum + x * e[i] * e[i], 0);
    expect(Math.abs(second / (first * first) - 1 - v)).toBeLessThan(0.03);
  });

  test("flattening at optical density 0.1 to 2, within 0.025 (0.04 at 2: the table averages cameras)", () => {
    const weak = weakResponse(e)[strongest];
    [0.1, 0.2, 0.5, 1, 2].forEach((od, i) => {
      const measured = bandAbsorbance([od / weak], [e], 1)[strongest];
      expect(Math.abs(measured / od - broad[i])).toBeLessThan(od === 2 ? 0.04 : 0.025);
    });
  });
});

test.each(Object.keys(DYES) as Dye[])("%s peaks at 1 within its stated wavelength", (dye) => {
  const e = colourantSpectrum(dye);
  const top = e.indexOf(Math.max(...e));
  expect(Math.abs(BAND_FIRST_NM + top * BAND_STEP_NM - DYES[dye].peakNm)).toBeLessThanOrEqual(5);
  // Half a band beside its peak the narrowest of them has lost 1 % at most.
  expect(e[top]).toBeGreaterThan(0.98);
  expect(e[top]).toBeLessThanOrEqual(1.001);
  const shifted = colourantSpectrum(dye, 10);
  expect(shifted[top + 1]).toBeCloseTo(e[top], 12);
});

describe("geometry of the columns (table of the same simulation, printed to a degree)", () => {
  const column = (name: Colourant | "soil", slope?: number) =>
    weakResponse(spectrumOf(name, slope));
  const angle = (p: Triple, q: Triple) => {
    const dot = p[0] * q[0] + p[1] * q[1] + p[2] * q[2];
    return (Math.acos(dot / Math.hypot(...p) / Math.hypot(...q)) * 180) / Math.PI;
  };

  // The cameras' spread of 2 to 5 % moves these angles by about a degree.
  test.each([
    ["soil", 0.014, "red", 18],
    ["soil", 0.014, "yellow", 15],
    ["soil", 0.014, "blue", 66],
    ["soil", 0.009, "red", 15],
    ["soil", 0.019, "yellow", 9.5],
    ["soil", 0.014, "carbon", 27],
  ] as const)("%s (slope %d) and %s: %d degrees", (a, slope, b, degrees) => {
    expect(Math.abs(angle(column(a, slope), column(b)) - degrees)).toBeLessThan(1);
  });

  test("red and blue: 63 degrees", () => {
    expect(Math.abs(angle(column("red"), column("blue")) - 63)).toBeLessThan(1);
  });

  test("red 0.35 + yellow 1.08 + blue 0.13 equals soil 1.00", () => {
    const mixed = [0, 1, 2].map(
      (c) => 0.35 * column("red")[c] + 1.08 * column("yellow")[c] + 0.13 * column("blue")[c],
    );
    mixed.forEach((value, c) => expect(Math.abs(value - column("soil")[c])).toBeLessThan(0.01));
  });
});

test("the mixing rows sum to 1: neutral light stays neutral", () => {
  for (const row of [0, 3, 6]) expect(SOFT[row] + SOFT[row + 1] + SOFT[row + 2]).toBeCloseTo(1, 12);
});

test("the forward model's derivatives are those of its values", () => {
  const spectra = [spectrumOf("soil"), spectrumOf("red"), spectrumOf("blue")];
  const at = [0.06, 0.02, 0.01];
  const jacobian = new Float64Array(9);
  bandAbsorbance(at, spectra, 5, jacobian);
  const h = 1e-6;
  for (let j = 0; j < 3; j++) {
    const moved = (sign: number) =>
      bandAbsorbance(
        at.map((x, k) => (k === j ? x + sign * h : x)),
        spectra,
        5,
      );
    const [up, down] = [moved(1), moved(-1)];
    // Central differences at 1e-6 are good to about 1e-8 here.
    for (let c = 0; c < 3; c++)
      expect(jacobian[c * 3 + j]).toBeCloseTo((up[c] - down[c]) / (2 * h), 6);
  }
});
