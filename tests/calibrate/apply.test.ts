import { describe, expect, test } from "vitest";
import { applyCorrection } from "../../src/calibrate/applyCorrection.ts";
import type { Correction, ToneCurve } from "../../src/calibrate/correction.ts";
import { MODEL_NAMES } from "../../src/calibrate/correction.ts";
import { correctionTables } from "../../src/calibrate/correctionTables.ts";
import { fitCorrection } from "../support/fitCorrection.ts";
import { invertToneCurve } from "../../src/calibrate/invertToneCurve.ts";
import { labOfMean } from "../../src/calibrate/labOfMean.ts";
import { planesToLab } from "../../src/calibrate/planesToLab.ts";
import { toneCurveAt } from "../../src/calibrate/toneCurveAt.ts";
import { decodeSrgb } from "../../src/colour/srgb.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { monotoneSlopes } from "../../src/numeric/monotoneCubic.ts";
import type { Planes } from "../../src/grid/planes.ts";
import { ALL_USABLE, cardSeenThrough, IDENTITY, KNOWN_GAM } from "./knownCorrections.ts";

const x = [0.02, 0.1, 0.3, 0.8];
const y = [0, 0.12, 0.25, 0.9];
const MONOTONE: ToneCurve = { kind: "monotone", x, y, slope: monotoneSlopes(x, y) };

const { card, samples } = cardSeenThrough(KNOWN_GAM);
const corrections: readonly Correction[] = MODEL_NAMES.map(
  (model) => fitCorrection(model, samples, card, ALL_USABLE).correction,
);

test.each([IDENTITY, { kind: "power", offset: 0.01, exponent: 1.2 } as const, MONOTONE])(
  "a $kind tone curve is undone by its inverse",
  (curve) => {
    for (const value of [0.015, 0.03, 0.2, 0.5, 0.81, 1.1])
      expect(invertToneCurve(curve, toneCurveAt(curve, value))).toBeCloseTo(value, 10);
  },
);

test("a power curve is zero up to its offset", () => {
  const curve: ToneCurve = { kind: "power", offset: 0.02, exponent: 0.8 };
  expect(toneCurveAt(curve, 0.02)).toBe(0);
  expect(toneCurveAt(curve, 0.001)).toBe(0);
  expect(toneCurveAt(curve, NaN)).toBeNaN();
});

describe.each([8, 16] as const)("tables of %i bit", (bitDepth) => {
  test.each(corrections)("through them $model gives what the direct way gives", (correction) => {
    const full = 2 ** bitDepth - 1;
    const tables = correctionTables(correction, bitDepth);
    expect(tables.map((table) => table.length)).toEqual([full + 1, full + 1, full + 1]);
    for (const share of [0, 0.1, 0.45, 0.8, 1]) {
      const codes = [share, 0.7 * share, 0.9 * share].map((part) => Math.round(part * full));
      const linear = codes.map((code) => decodeSrgb(code / full)) as unknown as Triple;
      const tone = codes.map((code, c) => tables[c][code]) as unknown as Triple;
      expect(labOfMean(correction, tone)).toEqual(applyCorrection(correction, linear));
    }
  });
});

describe.each(corrections)("planes of $model", (correction) => {
  const cells: readonly Triple[] = [
    [0.5, 0.4, 0.3],
    [0.001, 0.002, 0.001],
    [NaN, NaN, NaN],
    [0.9, 0.1, 0.05],
  ];
  const planes = (): Planes => ({
    width: 2,
    height: 2,
    stepX: 4,
    stepY: 4,
    channels: [0, 1, 2].map((c) =>
      Float32Array.from(cells, (cell) => cell[c]),
    ) as unknown as Planes["channels"],
  });

  test("every cell equals labOfMean to single precision; a cell without data stays without", () => {
    const [L, a, b] = planesToLab(planes(), correction);
    cells.forEach((cell, i) => {
      const lab = labOfMean(correction, cell);
      [L[i], a[i], b[i]].forEach((value, k) => {
        if (Number.isNaN(cell[0])) expect(value).toBeNaN();
        // Inputs and outputs are rounded to 24 bits; a* multiplies that by 500 and more in the dark.
        else expect(Math.abs(value - lab[k])).toBeLessThan(1e-3);
      });
    });
  });

  test("may be written over its own input", () => {
    const own = planes();
    const result = planesToLab(own, correction, own.channels);
    expect(result).toBe(own.channels);
    expect(result).toEqual(planesToLab(planes(), correction));
  });
});

test("planes of another length are refused", () => {
  const channel = new Float32Array(4);
  const planes: Planes = { width: 2, height: 2, stepX: 1, stepY: 1, channels: [channel, channel, channel] }; // prettier-ignore
  const short = new Float32Array(3);
  expect(() => planesToLab(planes, KNOWN_GAM, [short, short, short])).toThrow(RangeError);
});
