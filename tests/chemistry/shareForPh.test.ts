import { describe, expect, test } from "vitest";
import { bathRecipe } from "../../src/chemistry/bathRecipe.ts";
import { limeBath } from "../../src/chemistry/limeBath.ts";
import { shareForPh } from "../../src/chemistry/shareForPh.ts";
import { runCli, jsonOf } from "../support/runCli.ts";

describe("the share of limewater that gives a pH", () => {
  // The same published and worked values as of the recipe, read the other way. pH good to 0.03 is a share good to 8 %: a tenfold share
  // is 0.9 to 1 pH.
  test.each([
    [12.17, 25, 0.5, "NBS, dilution value"],
    [12.1, 20, 0.25, "worked elsewhere"],
    [11.93, 25, 0.25, "worked elsewhere"],
    [11.76, 30, 0.25, "worked elsewhere"],
    [11.46, 40, 0.25, "worked elsewhere"],
  ])("pH %d at %d C takes a share of %d (%s)", (ph, temperatureC, share) => {
    const found = shareForPh(ph, temperatureC);
    expect(Math.abs(found.share / share - 1)).toBeLessThan(0.1);
    expect(found.low).toBeLessThan(share);
    expect(found.high).toBeGreaterThan(share);
  });

  test("is the recipe turned round, over the whole range that can be reached", () => {
    for (const temperatureC of [5, 25, 38, 60])
      for (const share of [1e-5, 1e-4, 1e-3, 0.01, 0.1, 0.5]) {
        const { ph, saturated } = limeBath(share, temperatureC);
        expect(saturated).toBe(false);
        const found = shareForPh(ph, temperatureC);
        // pH is told to the last bits; below 1e-5 water's own ions hide the lime.
        expect(found.share / share).toBeCloseTo(1, 6);
        expect(found.low).toBeLessThan(share);
        expect(found.high).toBeGreaterThan(share);
      }
  });

  test("the range holds the shares at the tolerance's ends, and is wide where the water's own acid decides", () => {
    const strong = shareForPh(11.5, 25);
    const { phTolerance } = limeBath(strong.share, 25);
    expect(limeBath(strong.low, 25).ph).toBeCloseTo(11.5 - phTolerance, 6);
    expect(limeBath(strong.high, 25).ph).toBeCloseTo(11.5 + phTolerance, 6);
    expect(strong.high / strong.low).toBeLessThan(1.5);
    const weak = shareForPh(8.5, 25);
    expect(weak.high / weak.low).toBeGreaterThan(10);
  });

  test("less of a warm bath's pH can be had by warmth: a higher share for the same pH", () => {
    expect(shareForPh(9, 40).share).toBeGreaterThan(2 * shareForPh(9, 25).share);
  });

  test("undiluted limewater is reached, more is not; nor is the pH of water, or an acid one", () => {
    const { ph } = limeBath(1, 25);
    expect(shareForPh(ph, 25).share).toBeCloseTo(1, 6);
    for (const wrong of [ph + 0.01, 13.9, limeBath(0, 25).ph, 6.5, NaN])
      expect(() => shareForPh(wrong, 25)).toThrow(
        expect.objectContaining({ code: "wrong-use", input: "--ph" }) as Error,
      );
    // Warm, less lime dissolves, and the pH of what does is lower.
    expect(() => shareForPh(12.4, 40)).toThrow(/up to 11\.9/);
  });
});

describe("recipe --ph", () => {
  test("all figures are those of the share found; a pH and a share together, or neither, are refused", () => {
    const recipe = bathRecipe({ volumeMl: 500, ph: 11.93, temperatureC: 25 });
    const same = bathRecipe({
      volumeMl: 500,
      limewaterSharePercent: recipe.limewaterSharePercent,
      temperatureC: 25,
    });
    expect({ ...recipe, limewaterMlLow: null, limewaterMlHigh: null }).toEqual(same);
    expect(recipe.limewaterMl).toBeCloseTo(5 * recipe.limewaterSharePercent, 9);
    expect(recipe.ph).toBeCloseTo(11.93, 9);
    expect(recipe.limewaterMlLow).toBeLessThan(recipe.limewaterMl);
    expect(recipe.limewaterMlHigh).toBeGreaterThan(recipe.limewaterMl);
    for (const options of [{}, { ph: 9, limewaterSharePercent: 5 }])
      expect(() => bathRecipe({ volumeMl: 500, temperatureC: 25, ...options })).toThrow(
        expect.objectContaining({ code: "wrong-use" }) as Error,
      );
  });

  test("at pH 8.5 the command prints drops, not 0 mL, with their range and why to measure", async () => {
    const words = ["recipe", "--volume-ml", "500", "--ph", "8.5", "--temperature-c", "25"];
    const { status, stdout } = await runCli(words);
    expect(status).toBe(0);
    const [, ml] = /: ([\d.]+) mL limewater/.exec(stdout) ?? [];
    expect(Number(ml)).toBeGreaterThan(0.01);
    expect(Number(ml)).toBeLessThan(0.1);
    expect(stdout).toMatch(/it may take +0\.00\d+ to 0\.\d+ mL.*stop at a measured pH/);
    expect(stdout).not.toMatch(/ 0(\.0+)? (mg\/L|g\/L|mL)/);
    const json = jsonOf(await runCli([...words, "--json"])) as { ph: number; limewaterMl: number };
    expect(json.ph).toBeCloseTo(8.5, 6);
    expect(json.limewaterMl).toBeCloseTo(Number(ml), 2);
  });

  test("a pH that can't be had is wrong use, and says what can", async () => {
    const words = ["recipe", "--volume-ml", "500", "--ph", "13", "--temperature-c", "25", "--json"];
    const run = await runCli(words);
    expect(run.status).toBe(2);
    expect(jsonOf(run)).toMatchObject({
      error: { code: "wrong-use", message: expect.stringMatching(/up to 12\.4/) as string },
    });
  });
});
