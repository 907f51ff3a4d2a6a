import { describe, expect, test } from "vitest";
import { type LabPair, paperField, paperUnder } from "../../src/change/paperField.ts";
import { mean } from "../../src/numeric/statistics.ts";
import { seededRandom } from "../../src/numeric/random.ts";

const MM = 0.5;
const WIDTH = 360;
const HEIGHT = 480;

/** A sheet of 180 x 240 mm that changed in L* by so much at each place, in noise of 0.5 a cell. */
function sheet(change: (xMm: number, yMm: number) => number): LabPair {
  const random = seededRandom(5);
  const size = WIDTH * HEIGHT;
  const flat = (value: number): Float32Array => new Float32Array(size).fill(value);
  const L = Float32Array.from(
    { length: size },
    (_, i) => 78 + change((i % WIDTH) * MM, Math.floor(i / WIDTH) * MM) + 0.5 * random.normal(),
  );
  return {
    before: [flat(78), flat(4), flat(19)],
    after: [L, flat(3), flat(16)],
    width: WIDTH,
    mmPerCell: MM,
  };
}

function cellsWhere(inside: (xMm: number, yMm: number) => boolean): Int32Array {
  const cells: number[] = [];
  for (let i = 0; i < WIDTH * HEIGHT; i++)
    if (inside((i % WIDTH) * MM, Math.floor(i / WIDTH) * MM)) cells.push(i);
  return Int32Array.from(cells);
}

/** Margins of 6 mm around a picture. */
const MARGIN = cellsWhere((x, y) => x < 6 || y < 6 || x >= 174 || y >= 234);
/** A strip at the foot, beside its margin. */
const STRIP = cellsWhere((x, y) => x >= 8 && x < 172 && y >= 215 && y < 232);

describe("the paper under an ink", () => {
  test("on an even sheet is the paper everywhere, to within the noise", () => {
    const pair = sheet(() => 2.5);
    const { offset, covariance } = paperUnder(paperField(pair, MARGIN), pair, STRIP);
    // A patch of the margin holds about 480 cells: 0.5 / sqrt(480) = 0.02.
    expect(Math.abs(offset[0])).toBeLessThan(0.03);
    expect(covariance[0]).toBeLessThan(0.001);
  });

  test("at the foot of a sheet that came clean at its foot is like the foot", () => {
    const wave = (_: number, y: number): number => (y > 150 ? 4 : 1);
    const pair = sheet(wave);
    const field = paperField(pair, MARGIN);
    const { offset } = paperUnder(field, pair, STRIP);
    expect(field.mean[0] + offset[0]).toBeGreaterThan(3.5);
    expect(field.mean[0] + offset[0]).toBeLessThan(4.5);
    expect(offset[1]).toBeCloseTo(0, 6);
  });

  test("is meant to be off by as much as it says, over random sheets", () => {
    const areas = [
      STRIP,
      cellsWhere((x, y) => Math.hypot(x - 90, y - 120) < 30),
      cellsWhere((x, y) => x >= 8 && x < 172 && y >= 8 && y < 60),
    ];
    const standardised: number[] = [];
    for (let seed = 1; seed <= 12; seed++) {
      const random = seededRandom(seed);
      // Blots of 30 mm: cleaning that differs over some centimetres.
      const blots = Array.from({ length: 40 }, () => ({
        x: 180 * random.uniform(),
        y: 240 * random.uniform(),
        by: random.normal(),
      }));
      const change = (x: number, y: number): number =>
        blots.reduce(
          (sum, blot) =>
            sum + blot.by * Math.exp(-((x - blot.x) ** 2 + (y - blot.y) ** 2) / (2 * 20 ** 2)),
          2,
        );
      const pair = sheet(change);
      const field = paperField(pair, MARGIN);
      for (const area of areas) {
        const { offset, covariance } = paperUnder(field, pair, area);
        const truth = mean(Array.from(area, (i) => pair.after[0][i] - pair.before[0][i]));
        standardised.push((truth - field.mean[0] - offset[0]) / Math.sqrt(covariance[0]));
      }
    }
    const spread = Math.sqrt(mean(standardised.map((z) => z * z)));
    // 36 values scatter by an eighth; the likeness of these sheets is not quite the one assumed.
    expect(spread).toBeGreaterThan(0.5);
    expect(spread).toBeLessThan(1.5);
  });

  test("without paper to learn from nothing is known", () => {
    const pair = sheet(() => 2);
    const field = paperField(pair, new Int32Array(0));
    expect(paperUnder(field, pair, STRIP)).toEqual({
      offset: [0, 0, 0],
      covariance: [0, 0, 0, 0, 0, 0, 0, 0, 0],
    });
  });
});
