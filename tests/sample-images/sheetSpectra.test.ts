import { expect, test } from "vitest";
import {
  CONDITIONS,
  UNWASHED,
  labOfReflectance,
  sheetPrimaries,
} from "../../sample-images/scene/sheetSpectra.ts";
import { BED_DARK, BED_LIGHT, PAIR_DEFAULTS } from "../../sample-images/scene/pairOptions.ts";
import { ciede2000 } from "../../src/colour/ciede2000.ts";

const washing = {
  ...UNWASHED,
  yellowingRemoved: PAIR_DEFAULTS.yellowingRemoved,
  soilRemoved: PAIR_DEFAULTS.soilRemoved,
};

test("aged paper has the colour asked for, over a light and over a dark backing", () => {
  for (const backing of [BED_LIGHT, BED_DARK]) {
    const [L, a, b] = labOfReflectance(sheetPrimaries(UNWASHED, backing)[0][0]);
    expect(L).toBeCloseTo(78, 6);
    expect(b).toBeCloseTo(19, 6);
    // a* is not fitted; aged groundwood is slightly red.
    expect(a).toBeGreaterThan(1);
    expect(a).toBeLessThan(5);
  }
});

test("ink only takes light away, and washing it out gives light back", () => {
  const before = sheetPrimaries(UNWASHED, BED_LIGHT)[0];
  const faded = sheetPrimaries(
    { ...UNWASHED, inkLoss: { yellow: 0.3, red: 0.3, blue: 0.3, black: 0.3 } },
    BED_LIGHT,
  )[0];
  for (let overprint = 1; overprint < 16; overprint++)
    for (let ink = 1; ink < 16; ink *= 2) {
      if ((overprint & ink) === 0) continue;
      before[overprint].forEach((R, i) => {
        expect(R).toBeLessThan(before[overprint - ink][i] + 1e-12);
        expect(faded[overprint][i]).toBeGreaterThan(R);
        expect(faded[overprint][i]).toBeLessThan(before[0][i]);
      });
    }
});

test("washing lightens the paper by as much as washing usually does (from memory)", () => {
  const was = labOfReflectance(sheetPrimaries(UNWASHED, BED_LIGHT)[0][0]);
  const is = labOfReflectance(sheetPrimaries(washing, BED_LIGHT)[0][0]);
  // Aged groundwood: dL* +1 to +4, db* -2 to -6 (common practice, no open table).
  expect(is[0] - was[0]).toBeGreaterThan(1);
  expect(is[0] - was[0]).toBeLessThan(4);
  expect(is[2] - was[2]).toBeLessThan(-2);
  expect(is[2] - was[2]).toBeGreaterThan(-6);
});

test("soil, toning, foxing and a tide line darken; uncleaned paper is what it was", () => {
  const before = sheetPrimaries(UNWASHED, BED_LIGHT);
  const after = sheetPrimaries(washing, BED_LIGHT);
  const even = labOfReflectance(after[0][0]);
  for (const condition of ["toned", "soiled", "foxed", "tide"] as const)
    expect(labOfReflectance(after[CONDITIONS.indexOf(condition)][0])[0]).toBeLessThan(even[0] - 1);
  const uncleaned = CONDITIONS.indexOf("uncleaned");
  expect(after[uncleaned][0]).toEqual(before[0][0]);
});

test("a red bleed turns the paper towards red, a dull black is lighter and greyer", () => {
  const spoilt = sheetPrimaries({ ...washing, bleedingInk: "red", dullBlack: 0.1 }, BED_LIGHT);
  const sound = sheetPrimaries(washing, BED_LIGHT);
  const paper = labOfReflectance(sound[0][0]);
  const bleed = labOfReflectance(spoilt[CONDITIONS.indexOf("bleed")][0]);
  expect(bleed[1]).toBeGreaterThan(paper[1] + 5);
  const black = labOfReflectance(sound[0][8]);
  const dull = labOfReflectance(spoilt[0][8]);
  expect(dull[0]).toBeGreaterThan(black[0] + 2);
  expect(ciede2000(labOfReflectance(sound[0][1]), labOfReflectance(spoilt[0][1]))).toBe(0);
});
