import { describe, expect, test } from "vitest";
import { expectByLayers } from "../../src/print/expectByLayers.ts";
import { expectByScaling } from "../../src/print/expectByScaling.ts";
import { fitPaperSpectrum } from "../../src/print/fitPaperSpectrum.ts";
import type { MeasuredDifference } from "../../src/change/measuredDifference.ts";
import { splitPaperAndInk } from "../../src/change/splitPaperAndInk.ts";
import { sheetLab } from "../../src/print/twoLayerSheet.ts";
import { ciede2000 } from "../../src/colour/ciede2000.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { median, quantile } from "../../src/numeric/statistics.ts";
import { washedPrint } from "../support/variedSheet.ts";

/** Standard deviation 0.1 in each of L*, a*, b*: a good scanner. */
const SMALL = [0.01, 0, 0, 0, 0.01, 0, 0, 0, 0.01] as const;
const PAPER = { labBefore: [77, 4, 19.6], labAfter: [79.6, 2.6, 16.2], covariance: SMALL } as const;

function measured(labBefore: Triple, labAfter: Triple): MeasuredDifference {
  return { labBefore, labAfter, covariance: SMALL };
}

describe("the paper's spectrum", () => {
  test.each<Triple>([
    [78, 3.7, 19],
    [88, 2, 14],
    [70, 5, 25],
    [60, 8, 30],
  ])("meets %d / %d / %d", (...lab) => {
    sheetLab(fitPaperSpectrum(lab), []).forEach((value, i) => expect(value).toBeCloseTo(lab[i], 6));
  });
});

describe("an untouched ink on whiter paper, two layers", () => {
  const cases = Array.from({ length: 120 }, (_, i) => washedPrint(i + 1));
  const error = (expected: (print: (typeof cases)[number]) => Triple): number[] =>
    cases.map((print) => ciede2000(expected(print), print.untouched));
  const byLayers = error(({ before, paperBefore, paperAfter }) =>
    expectByLayers(paperBefore)(before)(paperAfter),
  );

  test("misses by less than 0.2 in the median of varied sheets, and channel scaling by half as much again at least", () => {
    // The aim for the ink part is 0.2; the sheets are whiter by 0.8 to 3.8 dE00.
    expect(median(byLayers)).toBeLessThan(0.2);
    const byScaling = error(({ before, paperBefore, paperAfter }) =>
      expectByScaling(before, paperBefore, paperAfter),
    );
    expect(median(byScaling)).toBeGreaterThan(1.5 * median(byLayers));
  });

  test("misses by more than its stated uncertainty allows in few", () => {
    const untouched = cases.filter(
      ({ before, untouched, paperBefore, paperAfter }) =>
        splitPaperAndInk(
          { labBefore: before, labAfter: untouched, covariance: [0, 0, 0, 0, 0, 0, 0, 0, 0] },
          {
            labBefore: paperBefore,
            labAfter: paperAfter,
            covariance: [0, 0, 0, 0, 0, 0, 0, 0, 0],
          },
        ).low > 0,
    );
    // One side of a 95 % interval: 2.5 % are expected of exact measurements; 5 % leaves room for 120 draws.
    expect(untouched.length / cases.length).toBeLessThan(0.05);
  });

  test("unchanged paper changes nothing, paper itself moves as the paper does", () => {
    const onPaper = expectByLayers(PAPER.labBefore);
    onPaper([50, 40, 25])(PAPER.labBefore).forEach((value, i) =>
      expect(value).toBeCloseTo([50, 40, 25][i], 9),
    );
    // All but no ink: the fit ends at a density of nearly zero.
    onPaper(PAPER.labBefore)(PAPER.labAfter).forEach((value, i) =>
      expect(value).toBeCloseTo(PAPER.labAfter[i], 2),
    );
  });

  test("a coated paper, whiter than any newsprint, lightens its inks as well", () => {
    const onPaper = expectByLayers([94, 1, 4]);
    onPaper([94, 1, 4])([96, 0.5, 1]).forEach((value, i) =>
      expect(value).toBeCloseTo([96, 0.5, 1][i], 1),
    );
    const [L, , b] = onPaper([70, -8, -20])([96, 0.5, 1]);
    expect(L).toBeGreaterThan(70.3);
    expect(b).toBeLessThan(-20.5);
  });

  test("the darker the ink, the less of the paper's change it shows", () => {
    const shift = [70, 50, 30].map((L) => {
      const ink: Triple = [L, 1, 4];
      const expected = expectByLayers(PAPER.labBefore)(ink)(PAPER.labAfter);
      return expected[0] - L;
    });
    for (let i = 1; i < shift.length; i++) expect(shift[i]).toBeLessThan(shift[i - 1]);
    expect(shift[2]).toBeGreaterThan(0);
  });

  test.each<Triple>([
    [85, 2, 12],
    [3, 0, 0],
    [30, 60, -60],
    [60, 0, 110],
  ])("stays finite beyond what ink on paper can show: %d / %d / %d", (...ink) => {
    const expected = expectByLayers(PAPER.labBefore)(ink)(PAPER.labAfter);
    expect(ciede2000(expected, ink)).toBeLessThan(2 * ciede2000(PAPER.labBefore, PAPER.labAfter));
  });

  test("a missing colour gives no figure", () => {
    const parts = splitPaperAndInk(measured([50, NaN, 25], [50, 40, 25]), PAPER);
    expect(parts.inkPart).toBeNaN();
    expect(parts.low).toBeNaN();
  });
});

describe("paper part and ink part", () => {
  test("lost ink is found behind whitening, with the truth in the interval", () => {
    const misses: number[] = [];
    let inside = 0;
    for (let seed = 201; seed <= 280; seed++) {
      const { before, after, untouched, paperBefore, paperAfter } = washedPrint(seed, 0.25);
      const parts = splitPaperAndInk(measured(before, after), {
        labBefore: paperBefore,
        labAfter: paperAfter,
        covariance: SMALL,
      });
      const truth = ciede2000(untouched, after);
      misses.push(Math.abs(parts.inkPart - truth));
      if (truth >= parts.low && truth <= parts.high) inside++;
      expect(parts.low).toBeLessThanOrEqual(parts.inkPart);
      expect(parts.high).toBeGreaterThanOrEqual(parts.inkPart);
      // An ink part well above its doubt is lost ink, not gained.
      if (parts.low > 0.3) expect(parts.towardsPaper).toBe(true);
    }
    expect(median(misses)).toBeLessThan(0.2);
    expect(quantile(misses, 0.9)).toBeLessThan(0.6);
    // 95 % intervals; 80 draws scatter by 2.4 %, twice that is allowed for.
    expect(inside / 80).toBeGreaterThan(0.9);
  });

  test("a part that happens to be zero is not taken for exactly zero", () => {
    const ink: Triple = [50.5, 43.8, 24.6];
    const expected = expectByLayers(PAPER.labBefore)(ink)(PAPER.labAfter);
    const { inkPart, low, high } = splitPaperAndInk(measured(ink, expected), PAPER);
    expect(inkPart).toBeCloseTo(0, 9);
    expect(low).toBe(0);
    // Noise: 0.1 in each of Lab for the ink, about as much from the paper, 0.27 from the model.
    expect(high).toBeGreaterThan(0.5);
    expect(high).toBeLessThan(1.5);
  });

  test("an ink that darkened didn't move towards the paper", () => {
    const { inkPart, low, towardsPaper } = splitPaperAndInk(
      measured([50.5, 43.8, 24.6], [47, 44, 25]),
      PAPER,
    );
    expect(inkPart).toBeGreaterThan(3);
    expect(low).toBeGreaterThan(1);
    expect(towardsPaper).toBe(false);
  });

  test("paper that came cleaner under the ink explains more of its change", () => {
    const ink = measured([69, 0.3, 9], [72.5, -1, 4]);
    const there = splitPaperAndInk(ink, PAPER, {
      offset: [1.3, -0.6, -1.6],
      covariance: SMALL,
    });
    const mean = splitPaperAndInk(ink, PAPER);
    expect(there.paperPart).toBeGreaterThan(mean.paperPart + 0.5);
    expect(there.inkPart).toBeLessThan(mean.inkPart);
  });

  test("doubt about the paper under the ink widens the interval, more so under a light ink", () => {
    const under = {
      offset: [0, 0, 0],
      covariance: [1, 0, 0, 0, 1, 0, 0, 0, 1],
    } as const;
    const widening = (ink: Triple): number => {
      const expected = expectByLayers(PAPER.labBefore)(ink)(PAPER.labAfter);
      const same = measured(ink, [expected[0] + 3, expected[1], expected[2]]);
      const plain = splitPaperAndInk(same, PAPER);
      const wide = splitPaperAndInk(same, PAPER, under);
      return wide.high - wide.low - (plain.high - plain.low);
    };
    const light = widening([69, 0.3, 9]);
    const dark = widening([29.4, 1.2, 5.1]);
    expect(dark).toBeGreaterThan(0);
    expect(light).toBeGreaterThan(2 * dark);
  });
});
