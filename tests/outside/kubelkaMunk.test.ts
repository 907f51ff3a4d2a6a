import { describe, expect, test } from "vitest";
import {
  BACKING_REFLECTANCE,
  SHEET_SCATTERING,
  SURFACE_REFLECTION,
} from "../../calibration/sheet-model.ts";
import { sheetReflectance, layerReflectance } from "../../src/print/twoLayerSheet.ts";
import { fitPaper } from "../../src/print/fitPaper.ts";
import { colourantSpectrum } from "../../src/print/spectra.ts";

describe("Kubelka-Munk layer", () => {
  /** K/S of an infinitely thick layer, by definition (1 - R)^2 / 2R. */
  const ratio = (R: number) => (1 - R) ** 2 / (2 * R);

  test.each([
    [0.8, 0.025],
    [0.7, 0.06429],
    [0.6, 0.13333],
    [0.5, 0.25],
    [0.25, 1.125],
    [0.1, 4.05],
    [0.05, 9.025],
  ])(
    "a very thick layer with K/S of reflectance %d returns it (Kubelka & Munk 1931, K/S %d)",
    (R, printed) => {
      expect(ratio(R)).toBeCloseTo(printed, 5);
      const S = 400;
      expect(layerReflectance(printed * S, S, 0)).toBeCloseTo(R, 4);
    },
  );

  test.each([
    [1, 0.4854, 0.781],
    [2, 0.6101, 0.7415],
    [3, 0.6592, 0.7206],
    [5, 0.6909, 0.7049],
  ])(
    "R inf 0.70, S X %d over black 0.05 and white 0.85 (Kubelka 1948, worked elsewhere, 4 decimals)",
    (SX, black, white) => {
      expect(layerReflectance(ratio(0.7) * SX, SX, 0.05)).toBeCloseTo(black, 4);
      expect(layerReflectance(ratio(0.7) * SX, SX, 0.85)).toBeCloseTo(white, 4);
    },
  );

  test("without absorption R = (R0 + S X (1 - R0)) / (1 + S X (1 - R0)) (limit of Kubelka 1948)", () => {
    for (const [SX, R0] of [
      [2.75, 0],
      [2.75, 0.6],
      [0.1, 0.3],
    ])
      expect(layerReflectance(0, SX, R0)).toBeCloseTo(
        (R0 + SX * (1 - R0)) / (1 + SX * (1 - R0)),
        12,
      );
  });

  test("a sheet without ink is one layer with its surface, however it is cut (Saunderson 1942)", () => {
    const paperK = fitPaper([78, 3, 19]);
    const whole = Array.from(paperK, (K) => {
      const R = layerReflectance(K, SHEET_SCATTERING, BACKING_REFLECTANCE);
      return ((1 - SURFACE_REFLECTION) * R) / (1 - SURFACE_REFLECTION * R);
    });
    for (const depth of [0.05, 0.2, 0.7])
      sheetReflectance(paperK, [], depth).forEach((R, i) => expect(R).toBeCloseTo(whole[i], 12));
  });

  test("two layers of one kind are one layer of both thicknesses", () => {
    const [K, S, R0] = [0.9, 2.2, 0.6];
    const stacked = layerReflectance(0.3 * K, 0.3 * S, layerReflectance(0.7 * K, 0.7 * S, R0));
    expect(stacked).toBeCloseTo(layerReflectance(K, S, R0), 12);
  });
});

describe("change of reflection density per transmission density lost (the same two-layer model, worked elsewhere)", () => {
  // Aged paper 78 3 19. The reference took its own red; its peak and breadth differ a little: 6 %.
  const paperK = fitPaper([78, 3, 19]);
  const spectrum = colourantSpectrum("red");
  const peak = spectrum.indexOf(Math.max(...spectrum));
  const densities = [0.05, 0.15, 0.3, 0.55, 1];
  test.each([
    [0.05, [3.8, 3.2, 2.3, 1.05, 0.44]],
    [0.12, [3.3, 2.5, 1.6, 0.79, 0.41]],
    [0.2, [2.8, 2.0, 1.2, 0.69, 0.39]],
    [0.4, [2.0, 1.4, 0.9, 0.57, 0.35]],
  ])("ink in the top %d of the sheet", (depth, printed) => {
    densities.forEach((density, i) => {
      const loss = 0.02;
      const [before, after] = [density, density - loss].map(
        (D) => sheetReflectance(paperK, [{ spectrum, density: D }], depth)[peak],
      );
      const F = Math.log10(after / before) / loss;
      expect(Math.abs(F / printed[i] - 1)).toBeLessThan(0.06);
    });
  });
});
