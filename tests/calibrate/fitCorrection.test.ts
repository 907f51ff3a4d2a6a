import { describe, expect, test } from "vitest";
import { applyCorrection } from "../../src/calibrate/applyCorrection.ts";
import { MODEL_NAMES } from "../../src/calibrate/correction.ts";
import { fitCorrection } from "../support/fitCorrection.ts";
import { leaveOneOut } from "../../src/calibrate/leaveOneOut.ts";
import { ciede2000 } from "../../src/colour/ciede2000.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import {
  ALL_USABLE,
  cardSeenThrough,
  KNOWN_3X3,
  KNOWN_3X4,
  KNOWN_GAM,
} from "./knownCorrections.ts";

/** Colours that are not on the card. */
const OTHERS: readonly Triple[] = [
  [0.6, 0.5, 0.3],
  [0.05, 0.04, 0.06],
  [0.7, 0.2, 0.1],
  [0.1, 0.3, 0.5],
];

describe("a correction that made the card is found again", () => {
  // The 3x3 and 3x4 have no priors: only the search's tolerance is left. The priors of gamma and offset pull gam+3x3 by a few hundredths.
  test.each([
    [KNOWN_3X3, 1e-4],
    [KNOWN_3X4, 1e-4],
    [KNOWN_GAM, 0.05],
  ])("$model", (known, tolerance) => {
    const { card, samples } = cardSeenThrough(known);
    const fit = fitCorrection(known.model, samples, card, ALL_USABLE);
    expect(Math.max(...fit.residuals)).toBeLessThan(tolerance);
    for (const linear of OTHERS)
      expect(
        ciede2000(applyCorrection(known, linear), applyCorrection(fit.correction, linear)),
      ).toBeLessThan(tolerance);
    expect(fit.rank).toBe(known.model === "3x4" ? 4 : 3);
    expect(fit.condition).toBeGreaterThan(1);
    expect(fit.condition).toBeLessThan(10);
  });

  test("exponents and offsets of gam+3x3 themselves come back", () => {
    const { card, samples } = cardSeenThrough(KNOWN_GAM);
    const { curves } = fitCorrection("gam+3x3", samples, card, ALL_USABLE).correction;
    curves.forEach((curve, c) => {
      const known = KNOWN_GAM.curves[c];
      if (curve.kind !== "power" || known.kind !== "power") throw new Error("not a power curve");
      // Gain and exponent of a channel nearly trade: the prior moves them by some thousandths along that direction.
      expect(Math.abs(curve.exponent - known.exponent)).toBeLessThan(0.01);
      expect(Math.abs(curve.offset - known.offset)).toBeLessThan(0.001);
    });
  });
});

test("an unusable patch has no say", () => {
  const { card, samples } = cardSeenThrough(KNOWN_3X3);
  const spoilt = samples.map((sample, i) =>
    i === 7 ? { ...sample, linear: [0.9, 0.1, 0.9] as const } : sample,
  );
  for (const model of MODEL_NAMES) {
    const usable = ALL_USABLE.map((_, i) => i !== 7);
    const clean = fitCorrection(model, samples, card, usable);
    expect(fitCorrection(model, spoilt, card, usable).correction).toEqual(clean.correction);
  }
});

test("one patch that no model follows bends the others little: the error pulls in proportion to its size, not its square", () => {
  const { card, samples } = cardSeenThrough(KNOWN_3X3);
  const spoilt = samples.map((sample, i) =>
    i === 17 ? { ...sample, linear: [0.3, 0.1, 0.1] as const } : sample,
  );
  const { residuals } = fitCorrection("3x3", spoilt, card, ALL_USABLE);
  expect(residuals[17]).toBeGreaterThan(30);
  // With a squared error the others are left at 1.04 on average, with the robust one at 0.18.
  const others = residuals.filter((_, i) => i !== 17);
  expect(others.reduce((sum, value) => sum + value, 0) / 23).toBeLessThan(0.3);
});

test("leaving out says more than fitting: errors are larger than residuals for every model on a frame that none explains", () => {
  const { card, samples } = cardSeenThrough(KNOWN_GAM);
  const bent = samples.map((sample) => ({
    ...sample,
    linear: sample.linear.map((value) => value * (1.3 - 0.5 * value)) as unknown as Triple,
  }));
  for (const model of MODEL_NAMES) {
    const { residuals } = fitCorrection(model, bent, card, ALL_USABLE);
    const { mean, p95, max, errors } = leaveOneOut(model, bent, card, ALL_USABLE);
    expect(mean).toBeGreaterThan(residuals.reduce((sum, value) => sum + value, 0) / 24);
    expect(p95).toBeGreaterThan(mean);
    expect(max).toBe(Math.max(...errors.map((error) => error ?? 0)));
  }
});

test("refuses too few patches and a list of flags of another length", () => {
  const { card, samples } = cardSeenThrough(KNOWN_3X3);
  const three = ALL_USABLE.map((_, i) => i < 3);
  expect(() => fitCorrection("3x3", samples, card, three)).toThrow(RangeError);
  expect(() => fitCorrection("3x3", samples, card, [true, true])).toThrow(RangeError);
  expect(() => fitCorrection("3x3", samples.slice(1), card, ALL_USABLE)).toThrow(RangeError);
});
