import { describe, expect, test } from "vitest";
import { CALCIUM_G_PER_MOL } from "../../calibration/calcium-hydroxide.ts";
import { bathRecipe, type RecipeOptions } from "../../src/chemistry/bathRecipe.ts";
import type { Recipe } from "../../src/results/recipe.ts";

/** The recipe of half a litre. */
const recipe = (
  limewaterSharePercent: number,
  temperatureC: number,
  more: Partial<RecipeOptions> = {},
): Recipe => bathRecipe({ volumeMl: 500, limewaterSharePercent, temperatureC, ...more });

describe("pH of the whole recipe (Bates, Bower & Smith 1956; buffer table of the European Pharmacopoeia; the model worked elsewhere)", () => {
  // Two printed digits; model and activity conventions differ by up to 0.03.
  test.each([
    [100, 25, 12.45, "NBS"],
    [50, 25, 12.17, "NBS, dilution value"],
    [100, 15, 12.81, "Pharmacopoeia"],
    [100, 20, 12.63, "Pharmacopoeia"],
    // Warmed, the saturated stock throws out a little lime: the recipe counts what stays dissolved.
    [100, 30, 12.29, "Pharmacopoeia"],
    [100, 35, 12.13, "Pharmacopoeia"],
    [25, 20, 12.1, "worked elsewhere"],
    [25, 25, 11.93, "worked elsewhere"],
    [25, 30, 11.76, "worked elsewhere"],
    [25, 40, 11.46, "worked elsewhere"],
  ])("%d percent of limewater at %d C: %d (%s)", (share, temperatureC, ph) => {
    expect(Math.abs(recipe(share, temperatureC).ph - ph)).toBeLessThan(0.03);
  });

  test("the stated tolerance covers every one of the published values", () => {
    for (const [share, t, ph] of [
      [100, 25, 12.45],
      [50, 25, 12.17],
      [100, 15, 12.81],
      [100, 20, 12.63],
      [100, 30, 12.29],
      [100, 35, 12.13],
    ]) {
      const made = recipe(share, t);
      expect(Math.abs(made.ph - ph)).toBeLessThan(made.phTolerance);
    }
  });
});

test("the stated tolerance of pH: model 0.03, stock to 8 %, thermometer to 1 K, carbonic acid of the water, in quadrature", () => {
  // 0.033 per kelvin: Bates, Bower & Smith 1956. 1.3e-5 mol/L of dissolved CO2, two OH- each: Henry's law, from memory.
  for (const share of [1, 5, 25, 100]) {
    const acid = 1.3e-5 / (0.0203 * (share / 100));
    const expected = Math.hypot(0.03, Math.log10(1.08), 0.033, Math.log10(1 + acid));
    expect(recipe(share, 25).phTolerance).toBeCloseTo(expected, 9);
  }
});

describe("content", () => {
  test("limewater of 25 C: 1.50 g/L and 814 mg/L of calcium (Bates, Bower & Smith 1956, printed digits)", () => {
    expect(recipe(100, 25).calciumHydroxideGPerL).toBeCloseTo(1.5, 2);
    expect(Math.abs(recipe(100, 25).calciumMgPerL - 814)).toBeLessThan(1);
  });

  test("a quarter of it: 125 mL in 500, 203 mg/L, 5.08 mmol/L of calcium (arithmetic, printed digits)", () => {
    const quarter = recipe(25, 25);
    expect(quarter.limewaterMl).toBe(125);
    expect(Math.abs(quarter.calciumMgPerL - 203)).toBeLessThan(0.5);
    // 5.075 exactly, printed 5.08.
    expect(Math.abs(quarter.calciumMgPerL / CALCIUM_G_PER_MOL - 5.08)).toBeLessThan(0.005 + 1e-9);
  });

  // Handbook series B, mol/L printed to 0.0001, scaled to the careful value at 25 C (0.0203 over 0.0214).
  test.each([
    [30, 0.0205],
    [40, 0.0189],
    [50, 0.0171],
    [60, 0.0154],
    [70, 0.014],
    [80, 0.0123],
    [90, 0.0111],
    [100, 0.01],
  ])("undiluted at %d C no more than dissolves: %d mol/L x 0.0203 / 0.0214", (t, handbook) => {
    const molPerL = recipe(100, t).calciumMgPerL / CALCIUM_G_PER_MOL / 1000;
    // The printed digit of the table, and of 0.0214.
    expect(Math.abs(molPerL - (handbook * 0.0203) / 0.0214)).toBeLessThan(1.1e-4);
  });
});

describe("alkaline reserve left on drying (ISO 9706, ISO 10716; arithmetic, printed digits)", () => {
  test.each([
    [100, 1.5, 0.061, 0.31, 0.15],
    [50, 1.5, 0.03, 0.15, 0.08],
    [25, 1.5, 0.015, 0.076, 0.04],
    [100, 2.5, 0.102, 0.51, 0.25],
    [50, 2.5, 0.051, 0.25, 0.13],
    [25, 2.5, 0.025, 0.127, 0.06],
  ])("%d percent at %d mL/g", (share, pickupMlPerG, molPerKg, percent, shareOfIso) => {
    const made = recipe(share, 25, { pickupMlPerG });
    expect(Math.abs(made.alkalineReserveMolPerKg - molPerKg)).toBeLessThanOrEqual(0.00051);
    // Half a unit of the last printed digit, and where three were printed for 0.00508 mol/L: the bath has 0.005075.
    const digit = percent < 0.13 ? 6e-4 : 6e-3;
    expect(Math.abs(made.alkalineReservePercentCaCO3 - percent)).toBeLessThanOrEqual(digit);
    expect(Math.abs(made.shareOfIso9706 - shareOfIso)).toBeLessThanOrEqual(0.0051);
  });
});

describe("surfactant (cmc 138 to 155 mg/L: Mukerjee & Mysels 1971 and detergent tables, from memory)", () => {
  test("an unmeasured drop is 0.030 mL to 35 %; a weighed one counts as weighed", () => {
    const one = recipe(25, 25, { surfactantDrops: 1 });
    expect(Math.abs(Number(one.surfactantMgPerL) - 64)).toBeLessThan(0.5);
    expect(Number(one.surfactantMgPerLLow) / Number(one.surfactantMgPerL)).toBeCloseTo(0.65, 9);
    expect(Number(one.surfactantMgPerLHigh) / Number(one.surfactantMgPerL)).toBeCloseTo(1.35, 9);
    const weighed = recipe(25, 25, { surfactantDrops: 1, dropMl: 0.05 });
    expect(Math.abs(Number(weighed.surfactantMgPerL) - 106)).toBeLessThan(0.75);
    expect(Number(weighed.surfactantShareOfCmc)).toBeCloseTo(0.73, 2);
  });

  test("two to four drops make one cmc in half a litre: two at the top of their range, four at the bottom of theirs", () => {
    const at = (surfactantDrops: number) => recipe(25, 25, { surfactantDrops });
    expect(Number(at(2).surfactantShareOfCmcHigh)).toBeGreaterThan(1);
    expect(Number(at(4).surfactantShareOfCmcLow)).toBeGreaterThan(1);
    expect(Number(at(2).surfactantShareOfCmc)).toBeLessThan(1);
  });

  test("more than three times the cmc is said to be harder to rinse out, less is not", () => {
    const warns = (drops: number) =>
      recipe(25, 25, { surfactantDrops: drops }).cautions.some((line) => /fewer drops/.test(line));
    expect(warns(6)).toBe(false); // 2.6
    expect(warns(7)).toBe(true); // 3.1
  });
});

describe("carry-over and rinses (arithmetic)", () => {
  // 9 mL into 500: 1.77 %, so two rinses leave 3.1e-4 and three 5.5e-6; into 1 L 0.89 % and 8.0e-5.
  test.each([
    [500, 0.02, 1],
    [500, 0.01, 2],
    [500, 3.2e-4, 2],
    [500, 1e-4, 3],
    [1000, 8.1e-5, 2],
    [1000, 7e-5, 3],
    // Exactly what two rinses leave is two rinses.
    [1000, (9 / 1009) ** 2, 2],
  ])("%d mL to a share of %d: %i rinses", (volumeMl, rinseTo, rinses) => {
    expect(recipe(25, 25, { volumeMl, wetSheetMl: 9, rinseTo }).rinses).toBe(rinses);
    expect(recipe(25, 25, { volumeMl, sheetG: 6, rinseTo }).rinses).toBe(rinses);
  });
});

describe("safety text, whatever the bath (safety sheets of calcium hydroxide and common practice, no source)", () => {
  test.each([0, 0.1, 25, 100])("%d percent of limewater", (share) => {
    const text = recipe(share, 25).cautions.join("\n");
    expect(text).toMatch(/goggles and gloves, no contact lenses/);
    expect(text).toMatch(/rinse for 15 minutes and see a doctor/);
    expect(text).toMatch(/Keep them from children/);
    expect(text).toMatch(/solid lime into water, never water onto lime/);
    expect(text).toMatch(/Make the stock cold.*decant it clear.*warm water/);
    expect(text).toMatch(/keep a blank of the same age/);
    expect(text).toMatch(/Test every ink with this very bath, warm/);
    expect(text).toMatch(/iron blue, chrome yellow/);
    expect(text).toMatch(/cannot be undone/);
    expect(text).toMatch(/belongs with a conservator/);
    expect(text).toMatch(/lead, chromate/);
  });
});
