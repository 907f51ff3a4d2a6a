import { describe, expect, test } from "vitest";
import { BAND_COUNT, BAND_FIRST_NM, BAND_STEP_NM } from "../../calibration/colourants.ts";
import { bandAbsorbance } from "../../src/print/bandAbsorbance.ts";
import { lostDensity } from "../../src/bath/predictFade.ts";
import { soilSpectrum } from "../../src/print/spectra.ts";

describe("Beer and Lambert's law (definition) in the broad-band model", () => {
  const grey = new Float64Array(BAND_COUNT).fill(1);

  // Printed to four decimals.
  test.each([
    [0.01, 0.9772],
    [0.05, 0.8913],
    [0.1, 0.7943],
    [0.3, 0.5012],
    [1, 0.1],
  ])("a grey liquid of absorbance %d transmits %d in every band", (A, T) => {
    for (const band of bandAbsorbance([A], [grey], 1)) expect(10 ** -band).toBeCloseTo(T, 4);
  });

  test("absorbance grows with the path: 0.12 in 5 cm is 0.24 in 10 cm, T 0.5754", () => {
    const perCm = 0.12 / 5;
    for (const band of bandAbsorbance([perCm], [grey], 10)) {
      expect(10 * band).toBeCloseTo(0.24, 12);
      expect(10 ** (-10 * band)).toBeCloseTo(0.5754, 4);
    }
  });

  test("a coloured liquid reads below the law in a broad band, never above, and meets it when thin", () => {
    const soil = soilSpectrum(0.014);
    const at = (amount: number) => bandAbsorbance([amount], [soil], 5).map((A) => A / amount);
    const [thin, dense] = [at(1e-5), at(0.3)];
    dense.forEach((value, c) => expect(value).toBeLessThan(thin[c]));
    at(2e-5).forEach((value, c) => expect(value / thin[c]).toBeCloseTo(1, 3));
  });
});

test("yellow-brown matter exp(-0.015 (nm - 440)): 0.259 at 530 and 0.078 at 610 nm (slope from memory, worked elsewhere)", () => {
  const e = soilSpectrum(0.015);
  const at = (nm: number) => e[(nm - BAND_FIRST_NM) / BAND_STEP_NM];
  // Only ratios count: the reference wavelength is a matter of units. Three decimals were printed.
  expect(at(530) / at(440)).toBeCloseTo(0.259, 3);
  expect(at(610) / at(440)).toBeCloseTo(0.078, 3);
});

test("0.010 per cm in 500 mL from 90 cm2 is a transmission density of 0.0556 (mass balance, worked elsewhere)", () => {
  expect(lostDensity(0.01, 500, 90)).toBeCloseTo(0.0556, 4);
});
