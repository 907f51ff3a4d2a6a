import { describe, expect, test } from "vitest";
import { benchFactor } from "../../src/bath/benchFactor.ts";
import { classifyInk } from "../../src/bath/classifyInk.ts";
import { fadeModel, lostDensity, predictFade } from "../../src/bath/predictFade.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { seededRandom } from "../../src/numeric/random.ts";
import { median, standardDeviation } from "../../src/numeric/statistics.ts";
import { drawPrint } from "../support/drawPrint.ts";

const PAPER: Triple = [78, 3, 19];
const RED: Triple = [59.84, 45.33, 33.97];
const NEW_BENCH = benchFactor([], "red");
const exactly = (x: number) => ({ low: x, mid: x, high: x });

describe("red region L 59.84 a 45.33 b 33.97 on paper 78 3 19, 500 mL, 90 cm2 (another implementation)", () => {
  test.each([
    [0.002, 0.0111],
    [0.005, 0.0278],
    [0.01, 0.0556],
    [0.02, 0.1111],
  ])("%d per cm is %d of transmission density", (x, printed) => {
    expect(lostDensity(x, 500, 90)).toBeCloseTo(printed, 4);
  });

  // The reference has its own spectrum of red and no undertone; half a unit of the last digit and 10 %.
  test.each([
    [0.1, [0.35, 0.9, 1.9, 4.3]],
    [0.2, [0.22, 0.56, 1.17, 2.5]],
    [0.35, [0.14, 0.35, 0.72, 1.5]],
  ])("ink in the top %d of the sheet", (depth, printed) => {
    const model = fadeModel(RED, PAPER, ["red"], depth);
    [0.002, 0.005, 0.01, 0.02].forEach((x, i) => {
      const deltaE00 = model.deltaE00(lostDensity(x, 500, 90));
      expect(Math.abs(deltaE00 - printed[i])).toBeLessThan(0.1 * printed[i] + 0.005);
    });
  });

  test("a yellow solid of density 0.55: 0.11 0.27 0.56 1.21", () => {
    // Its colour by our own model at that density; the reference printed true fades of its own, hence 15 %.
    const model = fadeModel([76.6, 3.1, 62], PAPER, ["yellow"]);
    [0.11, 0.27, 0.56, 1.21].forEach((printed, i) => {
      const deltaE00 = model.deltaE00([0.0111, 0.0278, 0.0556, 0.1111][i]);
      expect(Math.abs(deltaE00 / printed - 1)).toBeLessThan(0.2);
    });
  });
});

describe("predicted fade", () => {
  const model = fadeModel(RED, PAPER, classifyInk(RED, PAPER).colourants);
  const predict = (peakPerCm: { low: number; mid: number; high: number }, bench = NEW_BENCH) =>
    predictFade({ model, peakPerCm, volumeMl: 500, areaCm2: 90, bench });

  test("an exact amount on a new bench spans the factor 0.35 to 2.8", () => {
    const { low, mid, high } = predict(exactly(0.01));
    expect(low / mid).toBeCloseTo(0.353, 2);
    expect(high / mid).toBeCloseTo(2.83, 1);
  });

  test("grows with the amount; more than was there is all of it", () => {
    let last = -1;
    for (const x of [0, 0.001, 0.01, 0.05, 0.1]) {
      const { mid } = predict(exactly(x));
      expect(mid).toBeGreaterThan(last);
      last = mid;
    }
    expect(predict(exactly(10)).mid).toBe(predict(exactly(20)).mid);
    expect(predict(exactly(0))).toMatchObject({ low: 0, mid: 0, high: 0 });
  });

  test("a wider reading widens the range and the risk's spread, never narrows it", () => {
    const sharp = predict(exactly(0.01));
    const wide = predict({ low: 0.004, mid: 0.01, high: 0.02 });
    expect(wide.high).toBeGreaterThan(sharp.high);
    expect(wide.low).toBeLessThan(sharp.low);
    expect(wide.logSdForRisk).toBeGreaterThan(sharp.logSdForRisk);
    expect(wide.mid).toBe(sharp.mid);
  });

  test("a reading that reaches down to nothing keeps a finite top, and its risk a middle", () => {
    const open = predict({ low: 0, mid: 0, high: 0.02 });
    expect(open.low).toBe(0);
    expect(open.mid).toBe(0);
    expect(open.high).toBeGreaterThan(predict(exactly(0.02)).mid);
    expect(open.medianForRisk).toBeGreaterThan(0);
    expect(Number.isFinite(open.logSdForRisk)).toBe(true);
  });

  test("the same loss from a tenth of the area is worse by far", () => {
    const spread = predict(exactly(0.005)).mid;
    const local = predictFade({
      model,
      peakPerCm: exactly(0.005),
      volumeMl: 500,
      areaCm2: 9,
      bench: NEW_BENCH,
    }).mid;
    expect(local).toBeGreaterThan(8 * spread);
  });

  test("a bench factor moves and narrows it", () => {
    const bench = benchFactor(
      [
        {
          day: "2026-05-01",
          inkClass: "red",
          modelDeltaE00: 1,
          measuredDeltaE00: 1.5,
          noiseDeltaE00: 0.2,
        },
      ],
      "red",
    );
    const learned = predict(exactly(0.01), bench);
    const fresh = predict(exactly(0.01));
    expect(learned.mid).toBeGreaterThan(1.3 * fresh.mid);
    expect(learned.high / learned.low).toBeLessThan(0.5 * (fresh.high / fresh.low));
    expect(learned.modelDeltaE00).toBe(fresh.modelDeltaE00);
  });
});

test("350 drawn prints unlike the model: truth inside the 90 % range in at least 85 %, median of truth over prediction 0.6 to 1.6", () => {
  const random = seededRandom(7);
  const logRatios: number[] = [];
  let inside = 0;
  const count = 350;
  for (let i = 0; i < count; i++) {
    const print = drawPrint(random, i % 7);
    const { colourants } = classifyInk(print.inkLab, print.paperLab);
    const lost = 0.01 * 20 ** random.uniform();
    const truth = print.fade(lost);
    const { low, mid, high } = predictFade({
      model: fadeModel(print.inkLab, print.paperLab, colourants),
      peakPerCm: exactly((lost * 90) / 500),
      volumeMl: 500,
      areaCm2: 90,
      bench: NEW_BENCH,
    });
    if (truth >= low && truth <= high) inside++;
    logRatios.push(Math.log(truth / mid));
  }
  expect(inside / count).toBeGreaterThanOrEqual(0.85);
  expect(Math.exp(median(logRatios))).toBeGreaterThan(0.6);
  expect(Math.exp(median(logRatios))).toBeLessThan(1.6);
  // The range was made for a log-sd of 0.61 (another simulation).
  expect(standardDeviation(logRatios)).toBeLessThan(0.61);
});
