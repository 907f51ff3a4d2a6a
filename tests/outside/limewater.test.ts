import { describe, expect, test } from "vitest";
import {
  CALCIUM_G_PER_MOL,
  CALCIUM_HYDROXIDE_G_PER_MOL,
  SATURATED_25C_MOL_PER_L,
  SOLUBILITY_TABLE_A,
  SOLUBILITY_TABLE_B,
} from "../../calibration/calcium-hydroxide.ts";
import { limeBath } from "../../src/chemistry/limeBath.ts";
import { limePh } from "../../src/chemistry/limePh.ts";
import {
  calciumHydroxideMolarity,
  limewaterSolubility,
} from "../../src/chemistry/limewaterSolubility.ts";
import { waterPKw } from "../../src/chemistry/waterIonProduct.ts";

/** The same model, worked elsewhere, printed two decimals; 0.03 allows for its own constants. */
const COMPUTED_PH = 0.03;

describe("calcium hydroxide by temperature (handbook series B; pH by the same model, worked elsewhere, 2 decimals)", () => {
  test.each([
    [0, 0.0249, 999, 13.49, 12.96],
    [10, 0.0237, 950, 13.06, 12.53],
    [20, 0.0222, 889, 12.67, 12.13],
    [30, 0.0205, 823, 12.3, 11.77],
    [40, 0.0189, 756, 11.97, 11.44],
    [50, 0.0171, 683, 11.66, 11.12],
    [60, 0.0154, 616, 11.37, 10.83],
    [70, 0.014, 560, 11.12, 10.58],
    [80, 0.0123, 494, 10.87, 10.33],
    [90, 0.0111, 443, 10.65, 10.1],
    [100, 0.01, 399, 10.45, 9.9],
  ])("at %d C", (temperatureC, molPerL, calciumMgPerL, saturated, quarter) => {
    const c = calciumHydroxideMolarity(SOLUBILITY_TABLE_B[temperatureC / 10], temperatureC);
    // One unit of the last printed digit; the reference rounded the mass fraction once more on the way.
    expect(Math.abs(c - molPerL)).toBeLessThanOrEqual(1e-4);
    expect(Math.abs(c * CALCIUM_G_PER_MOL * 1000 - calciumMgPerL)).toBeLessThanOrEqual(1);
    expect(Math.abs(limePh(c, temperatureC) - saturated)).toBeLessThan(COMPUTED_PH);
    expect(Math.abs(limePh(c / 4, temperatureC) - quarter)).toBeLessThan(COMPUTED_PH);
  });

  test("the two handbook series agree within 7 %, the careful value lies 5 to 11 % below both at 25 C", () => {
    SOLUBILITY_TABLE_A.forEach((a, row) => {
      expect(Math.abs(a / SOLUBILITY_TABLE_B[row] - 1)).toBeLessThan(0.07);
    });
    const handbook = [SOLUBILITY_TABLE_A, SOLUBILITY_TABLE_B].map((table) =>
      calciumHydroxideMolarity((table[2] + table[3]) / 2, 25),
    );
    for (const value of handbook) {
      expect(value / SATURATED_25C_MOL_PER_L).toBeGreaterThan(1.05);
      expect(value / SATURATED_25C_MOL_PER_L).toBeLessThan(1.11);
    }
    expect(limewaterSolubility(25)).toBeCloseTo(SATURATED_25C_MOL_PER_L, 6);
  });

  test("1.50 g/L and 814 mg/L of calcium at 25 C (Bates, Bower & Smith 1956)", () => {
    const bath = limeBath(1, 25);
    expect(bath.calciumHydroxideGPerL).toBeCloseTo(1.5, 2);
    expect(Math.abs(bath.calciumMgPerL - 814)).toBeLessThan(1);
  });
});

describe("pH of limewater", () => {
  // Published pH is printed to 0.01; model and activity conventions differ by up to 0.03.
  test.each([
    ["saturated, 25 C: 12.45 (Bates, Bower & Smith 1956)", 0.0203, 25, 12.45],
    ["half, 25 C: 12.45 - 0.28 = 12.17 (same, dilution value)", 0.01015, 25, 12.17],
    ["saturated at 25, used at 15 C (European Pharmacopoeia buffer table)", 0.0203, 15, 12.81],
    ["used at 20 C (same)", 0.0203, 20, 12.63],
    ["used at 30 C (same)", 0.0203, 30, 12.29],
    ["used at 35 C (same)", 0.0203, 35, 12.13],
    ["25 % at 20 C (the same model, worked elsewhere)", 0.005075, 20, 12.1],
    ["25 % at 25 C (same)", 0.005075, 25, 11.93],
    ["25 % at 30 C (same)", 0.005075, 30, 11.76],
    ["25 % at 40 C (same)", 0.005075, 40, 11.46],
  ])("%s", (_, molPerL, temperatureC, published) => {
    expect(Math.abs(limePh(molPerL, temperatureC) - published)).toBeLessThan(COMPUTED_PH);
  });

  test("half as strong is 0.28 lower, a kelvin warmer 0.033 lower (Bates, Bower & Smith 1956)", () => {
    const saturated = limePh(0.0203, 25);
    // The two printed digits, and the model's own 0.03.
    expect(Math.abs(limePh(0.0203 / 2, 25) - saturated - -0.28)).toBeLessThan(0.03);
    expect(Math.abs((limePh(0.0203, 30) - limePh(0.0203, 20)) / 10 - -0.033)).toBeLessThan(0.002);
  });

  test("without the ion pair 12.51 at saturation (Davies 1962, worked elsewhere)", () => {
    expect(limePh(0.0203, 25, 0)).toBeCloseTo(12.51, 2);
  });

  test.each([
    [1.73, 12.57, 12.67],
    [0.5, 12.07, 12.13],
    [0.1, 11.4, 11.43],
    [0.037, 10.98, 11.0],
    [0.0037, 9.99, 10.0],
  ])(
    "%d g/L at 25 C without ion pair: with Davies %d, ideal %d (formulas of Davies 1962, worked elsewhere)",
    (g, davies, ideal) => {
      const c = g / CALCIUM_HYDROXIDE_G_PER_MOL;
      // Half a unit of the second decimal, and 0.005 because that list took pKw as 14.00, not 13.995.
      expect(Math.abs(limePh(c, 25, 0) - davies)).toBeLessThan(0.0101);
      expect(Math.abs(waterPKw(25) + Math.log10(2 * c) - ideal)).toBeLessThan(0.0101);
    },
  );

  test("solubility product from the careful value, with activities and pairing: 5.9e-6 (worked elsewhere)", () => {
    // aOH from the model's own pH; Ca2+ activity from mass balance and Davies at 25 C, written out here once more.
    const c = 0.0203;
    const aOH = 10 ** (limePh(c, 25) - waterPKw(25));
    let I = 3 * c;
    let aCa = 0;
    for (let i = 0; i < 50; i++) {
      const screening = Math.sqrt(I) / (1 + Math.sqrt(I)) - 0.3 * I;
      const g1 = 10 ** (-0.5107 * screening);
      const g2 = g1 ** 4;
      const Ca = c / (1 + (20 * g2 * aOH) / g1);
      aCa = Ca * g2;
      I = (4 * Ca + (c - Ca) + aOH / g1) / 2;
    }
    expect(Math.abs(aCa * aOH * aOH - 5.9e-6)).toBeLessThan(5e-8);
  });

  test("pKw at 100 C is 12.26 (IAPWS 12.25), beyond the table", () => {
    expect(Math.abs(waterPKw(100) - 12.26)).toBeLessThan(0.02);
  });
});
