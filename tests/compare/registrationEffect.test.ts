import { describe, expect, test } from "vitest";
import { ciede2000 } from "../../src/colour/ciede2000.ts";
import { MOST_SIGMA_MM, registrationEffect } from "../../src/compare/registrationEffect.ts";
import type { LabPlanes } from "../../src/change/differenceMap.ts";
import type { Triple } from "../../src/numeric/triple.ts";

const [WIDTH, HEIGHT, MM] = [40, 12, 0.17];
const MIDDLE = 5 * WIDTH + 20;

/** Left and right colour with a flank of four cells between, as a low-pass leaves it. */
function flank(left: Triple, right: Triple): LabPlanes {
  const plane = (c: number) =>
    Float32Array.from({ length: WIDTH * HEIGHT }, (_, i) => {
      const t = Math.min(1, Math.max(0, ((i % WIDTH) - 18) / 4));
      return left[c] + t * (right[c] - left[c]);
    });
  return [plane(0), plane(1), plane(2)];
}

const even = (value: number): Float32Array => new Float32Array(WIDTH * HEIGHT).fill(value);
const sheet = new Uint8Array(WIDTH * HEIGHT).fill(1);
const effectOf = (before: LabPlanes, after: LabPlanes, sigma: Float32Array): Float32Array =>
  registrationEffect({ before, after, width: WIDTH, height: HEIGHT, mmPerCell: MM }, sigma, sheet);

const PAPER: Triple = [85, 2, 12];
const BLACK: Triple = [25, 1, 2];

describe("what misplacement does to dE00", () => {
  test("next to nothing on flat colour, however badly the place is known", () => {
    const flat = flank(PAPER, PAPER);
    for (const value of effectOf(flat, flat, even(0.9))) expect(value).toBe(0);
  });

  test("a sharp edge turns a small displacement into an error in proportion", () => {
    const edge = flank(PAPER, BLACK);
    const [small, twice] = [0.01, 0.02].map((sigma) => effectOf(edge, edge, even(sigma))[MIDDLE]);
    expect(twice / small).toBeCloseTo(2, 4);
    // Fifteen L* a cell of 0.17 mm: near 1 dE00 for 0.01 mm.
    expect(small).toBeGreaterThan(0.6);
    expect(small).toBeLessThan(1.2);
  });

  test.each<[string, Triple, Triple]>([
    ["lightness", [60, 5, 5], [64, 5, 5]],
    ["chroma of a red", [50, 50, 25], [50, 58, 29]],
    ["hue of a yellow", [80, 4, 70], [80, 12, 69]],
    ["near grey", [60, 0, 0], [60, 4, 0]],
    ["a blue", [40, 5, -35], [40, 9, -35]],
  ])("it is CIEDE2000 to within a quarter: %s", (_, left, right) => {
    const slope = flank(left, right);
    const lab = (i: number): Triple => [slope[0][i], slope[1][i], slope[2][i]];
    // One cell of displacement along the slope, nothing across.
    const truth = ciede2000(lab(MIDDLE), lab(MIDDLE + 1));
    const found = effectOf(slope, slope, even(MM))[MIDDLE];
    expect(found / truth).toBeGreaterThan(0.75);
    expect(found / truth).toBeLessThan(1.25);
  });

  test("the steeper of the two frames counts: an edge that faded away was one before", () => {
    const edge = flank(PAPER, BLACK);
    const gone = flank(PAPER, PAPER);
    expect(effectOf(edge, gone, even(0.02))[MIDDLE]).toBeGreaterThan(1);
    expect(effectOf(gone, edge, even(0.02))[MIDDLE]).toBeGreaterThan(1);
  });

  test("an edge beside a flat place counts where the place may lie across it", () => {
    const edge = flank(PAPER, BLACK);
    const beside = 5 * WIDTH + 16;
    expect(effectOf(edge, edge, even(0.05))[beside]).toBe(0);
    expect(effectOf(edge, edge, even(0.6))[beside]).toBeGreaterThan(1);
  });

  test("unknown stays unknown: no map, a map worse than the low-pass, no data, off the sheet", () => {
    const flat = flank(PAPER, PAPER);
    expect(effectOf(flat, flat, even(NaN))[MIDDLE]).toBeNaN();
    expect(effectOf(flat, flat, even(1.01 * MOST_SIGMA_MM))[MIDDLE]).toBeNaN();
    const unseen: LabPlanes = [even(NaN), even(NaN), even(NaN)];
    expect(effectOf(flat, unseen, even(0.01))[MIDDLE]).toBeNaN();
    const off = registrationEffect(
      { before: flat, after: flat, width: WIDTH, height: HEIGHT, mmPerCell: MM },
      even(0.01),
      new Uint8Array(WIDTH * HEIGHT),
    );
    expect(off[MIDDLE]).toBeNaN();
  });

  test("beside a place that is not seen, the seen side tells", () => {
    const edge = flank(PAPER, BLACK);
    const seen = (plane: Float32Array): Float32Array =>
      plane.map((value, i) => (i % WIDTH > 20 ? NaN : value));
    const after: LabPlanes = [seen(edge[0]), seen(edge[1]), seen(edge[2])];
    expect(effectOf(edge, after, even(0.02))[MIDDLE]).toBeGreaterThan(1);
  });
});
