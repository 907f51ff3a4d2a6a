import { describe, expect, test } from "vitest";
import { differenceInterval } from "../../src/calibrate/differenceInterval.ts";
import { samplingCovariance } from "../../src/calibrate/samplingCovariance.ts";
import { splitDifference } from "../../src/calibrate/splitDifference.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { seededRandom } from "../../src/numeric/random.ts";

describe("95 % interval of a distance", () => {
  const spread = { g: 0.01, h: 2.5 };

  test("starts at zero for what nothing could have given, above it for a clear change", () => {
    expect(differenceInterval(0.1, spread).low).toBe(0);
    expect(differenceInterval(0.25, spread).low).toBe(0);
    expect(differenceInterval(0.4, spread).low).toBeGreaterThan(0);
  });

  test("holds the measured value, grows with it, and joins its far form without a step", () => {
    let last = differenceInterval(0, spread);
    for (let measured = 0.02; measured < 2.5; measured += 0.02) {
      const { low, high } = differenceInterval(measured, spread);
      expect(low).toBeLessThanOrEqual(measured);
      expect(high).toBeGreaterThanOrEqual(measured);
      expect(low).toBeGreaterThanOrEqual(last.low);
      expect(high).toBeGreaterThanOrEqual(last.high);
      // Between two steps of 0.02 the ends move by about as much: 0.01 of a step would show as 0.03.
      expect(low - last.low).toBeLessThan(0.05);
      last = { low, high };
    }
  });

  test.each([0, 0.1, 0.3, 1.5])("covers a true distance of %f in 95 of 100 cases", (truth) => {
    const random = seededRandom(9);
    const sd = 0.1;
    const draws = 500;
    let covered = 0;
    for (let i = 0; i < draws; i++) {
      const measured = Math.hypot(
        truth + sd * random.normal(),
        sd * random.normal(),
        sd * random.normal(),
      );
      const { low, high } = differenceInterval(measured, { g: sd * sd, h: 3 });
      if (low <= truth && truth <= high) covered++;
    }
    // Sampling error of 500 draws is 1 %; near zero the upper end is drawn out to what is measured, so coverage may lie above.
    expect(covered / draws).toBeGreaterThan(0.925);
    if (truth > 0.2) expect(covered / draws).toBeLessThan(0.975);
  });

  test("without spread it is the measured value", () => {
    expect(differenceInterval(1.2, { g: 0, h: 1 })).toEqual({ low: 1.2, high: 1.2 });
  });
});

describe("lightness, chroma and hue", () => {
  const COVARIANCE = [0.04, 0, 0, 0, 0.01, 0, 0, 0, 0.09] as const;

  test("add up to the Lab distance", () => {
    const before: Triple = [60, 30, 20];
    const after: Triple = [62, 27, 24];
    const { deltaL, deltaC, deltaH } = splitDifference(before, after, COVARIANCE);
    expect(deltaL.value ** 2 + deltaC.value ** 2 + deltaH.value ** 2).toBeCloseTo(4 + 9 + 16, 9);
    expect(deltaH.value).toBeGreaterThan(0);
  });

  test("of a red ink chroma takes the spread of a*, hue that of b*", () => {
    const { deltaC, deltaH } = splitDifference([50, 40, 0], [50, 41, 0], COVARIANCE);
    expect(deltaC.high - deltaC.low).toBeCloseTo(2 * 1.96 * 0.1, 3);
    expect(deltaH.high - deltaH.low).toBeCloseTo(2 * 1.96 * 0.3, 3);
  });

  test("across the negative a* axis the hue turns the short way", () => {
    const { deltaH } = splitDifference([50, -30, 1], [50, -30, -1], COVARIANCE);
    expect(deltaH.value).toBeCloseTo(2, 2);
  });
});

describe("texture of an area", () => {
  const random = seededRandom(4);
  const drawing = Array.from({ length: 300 }, (): Triple => [50 + 5 * random.normal(), 0, 0]);
  const noisy = (): Triple[] =>
    drawing.map(([L, a, b]): Triple => [L + 0.5 * random.normal(), a, b]);

  test("seen in different pieces, the drawing itself is uncertainty; registered, only the noise is", () => {
    const [before, after] = [noisy(), noisy()];
    // var = 25 + 0.25 in each frame, over 300 blocks, twice; registered 2 x 0.25 over 300. A variance of 300 draws is good to 8 %.
    const apart = samplingCovariance(before, after, "apart")[0];
    expect(apart / ((2 * 25.25) / 300)).toBeGreaterThan(0.8);
    expect(apart / ((2 * 25.25) / 300)).toBeLessThan(1.2);
    const registered = samplingCovariance(before, after, "registered")[0];
    expect(registered / (0.5 / 300)).toBeGreaterThan(0.8);
    expect(registered / (0.5 / 300)).toBeLessThan(1.2);
  });

  test("one block tells nothing of its own spread", () => {
    expect(samplingCovariance([[50, 0, 0]], [[51, 0, 0]], "registered")).toEqual(
      new Array(9).fill(0),
    );
  });

  test("registered blocks come in pairs", () => {
    expect(() => samplingCovariance(drawing, drawing.slice(1), "registered")).toThrow(RangeError);
  });
});
