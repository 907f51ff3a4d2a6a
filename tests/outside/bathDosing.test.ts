import { describe, expect, test } from "vitest";
import {
  CALCIUM_CARBONATE_G_PER_MOL,
  CALCIUM_HYDROXIDE_G_PER_MOL,
} from "../../calibration/calcium-hydroxide.ts";
import { SURFACTANT_G_PER_ML } from "../../calibration/surfactant.ts";
import { alkalineReserve } from "../../src/chemistry/alkalineReserve.ts";
import { carryOver } from "../../src/chemistry/carryOver.ts";
import { surfactantDose } from "../../src/chemistry/surfactantDose.ts";

describe("surfactant drops against the critical micelle concentration of 138 to 155 mg/L (Mukerjee & Mysels 1971 and detergent tables, from memory)", () => {
  test.each([
    [0.02, 21, 43, 0.29, 3.4],
    [0.025, 27, 53, 0.37, 2.7],
    [0.03, 32, 64, 0.44, 2.3],
    [0.035, 37, 75, 0.51, 1.9],
    [0.04, 43, 85, 0.59, 1.7],
    [0.05, 53, 106, 0.73, 1.4],
  ])("a drop of %d mL in half a litre", (dropMl, mg, mgPerL, share, dropsForCmc) => {
    const one = surfactantDose(1, 500, dropMl);
    // Half a unit of each printed digit (and the table's rounding of 26.6 mg).
    expect(Math.abs(one.mgPerL.mid / 2 - mg)).toBeLessThanOrEqual(0.51);
    expect(Math.abs(one.mgPerL.mid - mgPerL)).toBeLessThanOrEqual(0.51);
    expect(Math.abs(one.shareOfCmc.mid - share)).toBeLessThanOrEqual(0.006);
    expect(Math.abs(1 / one.shareOfCmc.mid - dropsForCmc)).toBeLessThanOrEqual(0.06);
  });

  test("cmc range from 0.22 to 0.24 mmol/L and 625 to 647 g/mol: 138 to 155 mg/L", () => {
    expect(0.22 * 625).toBeCloseTo(137.5, 6);
    expect(0.24 * 647).toBeCloseTo(155.3, 1);
    const dose = surfactantDose(3, 500);
    expect(dose.shareOfCmc.low).toBeCloseTo(dose.mgPerL.low / 155, 9);
    expect(dose.shareOfCmc.high).toBeCloseTo(dose.mgPerL.high / 138, 9);
  });

  test("7.2 mL of a 1 % dilution in half a litre are one critical micelle concentration (worked elsewhere)", () => {
    // 7.2 mL of 10 mg/mL; the drop of the same dose, neat.
    const neatMl = 72 / 1000 / SURFACTANT_G_PER_ML;
    // Two printed digits: 7.2 stands for 7.15 to 7.25.
    expect(Math.abs(surfactantDose(1, 500, neatMl).shareOfCmc.mid - 1)).toBeLessThan(0.012);
  });

  test("three drops in the wash leave 4 to 10 mg/L in the first rinse and 0.1 to 0.3 in the second by dilution", () => {
    const share = carryOver(16, 500);
    const first = [0.02, 0.05].map((drop) => surfactantDose(3, 500, drop).mgPerL.mid * share);
    expect(first[0]).toBeCloseTo(4, 0);
    expect(first[1]).toBeCloseTo(10, 0);
    expect(first[0] * share).toBeCloseTo(0.1, 1);
    expect(first[1] * share).toBeCloseTo(0.3, 1);
  });
});

describe("alkaline reserve against ISO 9706 (0.4 mol/kg, 2 % CaCO3)", () => {
  test("2 % of calcium carbonate neutralise 0.3997 mol of acid per kg", () => {
    expect((20 / CALCIUM_CARBONATE_G_PER_MOL) * 2).toBeCloseTo(0.3997, 4);
    const c = 0.2 / 1.5; // a bath that would leave exactly 0.2 mol/kg of carbonate at 1.5 mL/g
    expect(alkalineReserve(c, 1.5).percentCaCO3).toBeCloseTo(2, 2);
    expect(alkalineReserve(c, 1.5).shareOfIso9706).toBeCloseTo(1, 9);
  });

  // Reserve 2 c w, carbonate 10.009 c w (ISO 10716 counts acid neutralised), worked elsewhere: half a unit of each printed digit.
  test.each([
    [0.0203, 1.5, 0.061, 0.31, 0.15],
    [0.01015, 1.5, 0.03, 0.15, 0.08],
    [0.00508, 1.5, 0.015, 0.076, 0.04],
    [0.001, 1.5, 0.003, 0.015, 0.01],
    [0.0203, 2.5, 0.102, 0.51, 0.25],
    [0.01015, 2.5, 0.051, 0.25, 0.13],
    [0.00508, 2.5, 0.025, 0.127, 0.06],
    [0.001, 2.5, 0.005, 0.025, 0.01],
  ])(
    "%d mol/L at %d mL/g (arithmetic, worked elsewhere)",
    (c, pickup, molPerKg, percent, share) => {
      const reserve = alkalineReserve(c, pickup);
      expect(Math.abs(reserve.molPerKg - molPerKg)).toBeLessThanOrEqual(0.00051);
      expect(Math.abs(reserve.percentCaCO3 - percent)).toBeLessThanOrEqual(
        percent < 0.13 ? 6e-4 : 6e-3,
      );
      expect(Math.abs(reserve.shareOfIso9706 - share)).toBeLessThanOrEqual(0.0051);
    },
  );

  test.each([
    [1.73, 0.35],
    [0.5, 0.1],
    [0.037, 0.0075],
  ])(
    "6 g of paper with 9 mL of %d g/L keep %d percent of CaCO3 (arithmetic, worked elsewhere)",
    (gPerL, percent) => {
      const { percentCaCO3 } = alkalineReserve(gPerL / CALCIUM_HYDROXIDE_G_PER_MOL, 9 / 6);
      expect(Math.abs(percentCaCO3 / percent - 1)).toBeLessThan(0.02);
    },
  );
});

describe("carry-over of 9 mL, v / (V + v) (arithmetic, worked elsewhere, printed digits)", () => {
  test.each([
    [500, 1.77],
    [1000, 0.89],
    [2000, 0.45],
  ])("into %d mL: %d percent", (volume, percent) => {
    expect(100 * carryOver(9, volume)).toBeCloseTo(percent, 2);
  });

  test("two rinses of 1 L leave 8.0e-5", () => {
    expect(carryOver(9, 1000) ** 2).toBeCloseTo(8e-5, 6);
  });
});
