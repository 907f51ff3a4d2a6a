import { describe, expect, test } from "vitest";
import { bathRecipe, type RecipeOptions } from "../../src/chemistry/bathRecipe.ts";
import { LastrinseError } from "../../src/errors.ts";

const BASE: RecipeOptions = { volumeMl: 500, limewaterSharePercent: 25, temperatureC: 25 };

describe("bath recipe", () => {
  test("a quarter of limewater at 25 C", () => {
    const recipe = bathRecipe(BASE);
    expect(recipe.limewaterMl).toBe(125);
    // 203 mg/L of calcium: a quarter of the 814 of Bates, Bower & Smith 1956, last digit.
    expect(Math.abs(recipe.calciumMgPerL - 203)).toBeLessThan(1);
    expect(Math.abs(recipe.ph - 11.93)).toBeLessThan(0.03);
    expect(recipe.surfactantMgPerL).toBeNull();
    expect(recipe.rinses).toBeNull();
  });

  test("more limewater is never less alkaline, warmth lowers pH at the same content", () => {
    let last = 0;
    for (const limewaterSharePercent of [0, 0.1, 1, 5, 25, 50, 100]) {
      const { ph } = bathRecipe({ ...BASE, limewaterSharePercent });
      expect(ph).toBeGreaterThan(last);
      last = ph;
    }
    expect(bathRecipe({ ...BASE, temperatureC: 40 }).ph).toBeLessThan(bathRecipe(BASE).ph - 0.4);
  });

  test("plain water is neutral, and the pH of a trace of lime is stated as barely known", () => {
    expect(bathRecipe({ ...BASE, limewaterSharePercent: 0 }).ph).toBeCloseTo(13.995 / 2, 2);
    expect(bathRecipe({ ...BASE, limewaterSharePercent: 0.1 }).phTolerance).toBeGreaterThan(0.15);
    expect(bathRecipe(BASE).phTolerance).toBeLessThan(0.07);
  });

  test("above pH 9 the first caution says so; cautions are always there", () => {
    expect(bathRecipe(BASE).cautions[0]).toMatch(
      /stronger than usual for groundwood.*red or blue lakes.*little by little.*measured pH/s,
    );
    const water = bathRecipe({ ...BASE, limewaterSharePercent: 0 }).cautions;
    expect(water[0]).not.toMatch(/stronger than usual/);
    expect(water.join(" ")).toMatch(/cannot be undone/);
  });

  test("saturated stock warmed throws out solid: the content is capped and said", () => {
    const warm = bathRecipe({ ...BASE, limewaterSharePercent: 100, temperatureC: 50 });
    const cool = bathRecipe({ ...BASE, limewaterSharePercent: 100, temperatureC: 25 });
    expect(warm.calciumHydroxideGPerL).toBeLessThan(cool.calciumHydroxideGPerL);
    expect(warm.cautions.join(" ")).toMatch(/comes out as a white solid/);
    expect(cool.cautions.join(" ")).not.toMatch(/comes out as a white solid/);
  });

  test("a measured drop narrows the range; too much surfactant is said", () => {
    const assumed = bathRecipe({ ...BASE, surfactantDrops: 3 });
    const measured = bathRecipe({ ...BASE, surfactantDrops: 3, dropMl: 0.03 });
    expect(measured.surfactantMgPerL).toBe(assumed.surfactantMgPerL);
    const width = (recipe: typeof assumed) =>
      Number(recipe.surfactantMgPerLHigh) - Number(recipe.surfactantMgPerLLow);
    expect(width(measured)).toBeLessThan(width(assumed) / 2);
    expect(bathRecipe({ ...BASE, surfactantDrops: 12 }).cautions.join(" ")).toMatch(/fewer drops/);
  });

  test("rinses to a target, from the wet sheet or from mass and pick-up", () => {
    expect(bathRecipe({ ...BASE, rinseTo: 0.001, wetSheetMl: 9 }).rinses).toBe(2);
    expect(bathRecipe({ ...BASE, rinseTo: 0.001, sheetG: 6 }).rinses).toBe(2);
    expect(bathRecipe({ ...BASE, rinseTo: 1e-6, wetSheetMl: 9 }).rinses).toBe(4);
    expect(() => bathRecipe({ ...BASE, rinseTo: 0.001 })).toThrow(LastrinseError);
  });

  test.each([
    ["volumeMl", 0],
    ["volumeMl", NaN],
    ["limewaterSharePercent", -1],
    ["limewaterSharePercent", 101],
    ["temperatureC", 101],
    ["surfactantDrops", -1],
    ["dropMl", 0],
    ["rinseTo", 1],
    ["pickupMlPerG", 0],
  ])("%s = %d is refused with what was expected", (name, value) => {
    try {
      bathRecipe({ ...BASE, wetSheetMl: 9, [name]: value });
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(LastrinseError);
      expect(error).toMatchObject({ code: "wrong-use" });
      expect((error as LastrinseError).message).toMatch(/Expected a .* received/);
    }
  });
});
