import { describe, expect, test } from "vitest";
import { seededRandom } from "../../src/numeric/random.ts";
import { tileCorrelator } from "../../src/register/correlateTile.ts";
import { correlationPeak } from "../../src/register/correlationPeak.ts";

/** Pearson's correlation of the window with the block at one shift, over what counts. */
function pearson(
  window: Float64Array,
  counts: Uint8Array,
  block: Float64Array,
  side: number,
  blockSide: number,
  sx: number,
  sy: number,
): number {
  const a: number[] = [];
  const b: number[] = [];
  for (let y = 0; y < side; y++)
    for (let x = 0; x < side; x++)
      if (counts[y * side + x]) {
        a.push(window[y * side + x]);
        b.push(block[(y + sy) * blockSide + x + sx]);
      }
  const mean = (v: number[]): number => v.reduce((s, x) => s + x, 0) / v.length;
  const [ma, mb] = [mean(a), mean(b)];
  let [ab, aa, bb] = [0, 0, 0];
  a.forEach((value, i) => {
    ab += (value - ma) * (b[i] - mb);
    aa += (value - ma) ** 2;
    bb += (b[i] - mb) ** 2;
  });
  return ab / Math.sqrt(aa * bb);
}

describe("correlation of a tile", () => {
  test.each([
    [9, 1],
    [11, 2],
    [9, 3],
    [7, 4],
    [13, 6],
  ])("side %i, reach %i: the definition, whole and masked", (side, reach) => {
    const random = seededRandom(side);
    const tile = tileCorrelator(side, reach);
    const blockSide = side + 2 * reach;
    const shifts = 2 * reach + 1;
    const window = tile.window.map(() => random.normal());
    tile.block.forEach((_, i) => (tile.block[i] = 3 + random.normal()));
    for (const masked of [false, true]) {
      tile.window.set(window);
      tile.counts.forEach((_, i) => (tile.counts[i] = masked && i % side < 3 ? 0 : 1));
      if (masked) tile.correlateMasked();
      else tile.correlate();
      for (let sy = 0; sy < shifts; sy++)
        for (let sx = 0; sx < shifts; sx++)
          expect(tile.surface[sy * shifts + sx]).toBeCloseTo(
            pearson(window, tile.counts, tile.block, side, blockSide, sx, sy),
            10,
          );
    }
  });

  test("a flat side correlates with nothing", () => {
    const tile = tileCorrelator(7, 2);
    tile.block.fill(5);
    tile.window.forEach((_, i) => (tile.window[i] = i));
    tile.correlate();
    expect([...tile.surface].every((value) => value === 0)).toBe(true);
  });
});

/** A quadratic summit of height C at (x, y) with curvature matrix [[a, c], [c, b]]. */
function summit(
  reach: number,
  C: number,
  x: number,
  y: number,
  a: number,
  b: number,
  c: number,
): Float64Array {
  const side = 2 * reach + 1;
  return Float64Array.from({ length: side * side }, (_, i) => {
    const u = (i % side) - reach - x;
    const v = Math.floor(i / side) - reach - y;
    return C - (a * u * u + 2 * c * u * v + b * v * v) / 2;
  });
}

describe("the peak of a surface", () => {
  test("of a round summit, to a fraction", () => {
    const peak = correlationPeak(summit(3, 0.9, 1.3, -0.4, 0.1, 0.1, 0), 3);
    expect(peak?.x).toBeCloseTo(1.3, 10);
    expect(peak?.y).toBeCloseTo(-0.4, 10);
    expect(peak?.xy).toBeCloseTo(0, 10);
    // Weight of a direction, C^2 e / (e + 0.3 (1 - C) + 0.004), with the height and curvature at the nearest sample.
    const C = 0.9 - (0.1 * (0.3 ** 2 + 0.4 ** 2)) / 2;
    expect(peak?.xx).toBeCloseTo((C * C * 0.1) / (0.1 + 0.3 * (1 - C) + 0.004), 10);
  });

  test("of a slanting ridge with a weak summit: x and y apart would both claim the offset", () => {
    // Principal curvatures 0.2 and 0.02 at 45 degrees.
    const peak = correlationPeak(summit(3, 0.95, 0.3, 0.1, 0.11, 0.11, 0.09), 3);
    expect(peak?.x).toBeCloseTo(0.3, 10);
    expect(peak?.y).toBeCloseTo(0.1, 10);
  });

  test("of a straight edge: information across it only, no claim along it", () => {
    const edge = correlationPeak(summit(3, 0.95, 0.25, 0, 0.2, 0.002, 0), 3);
    expect(edge?.x).toBeCloseTo(0.25, 10);
    expect(edge?.y).toBeCloseTo(0, 10);
    expect(edge?.xx).toBeGreaterThan(0.7);
    expect(edge?.yy).toBeCloseTo(0, 10);
  });

  test("on the rim tells nothing", () => {
    expect(correlationPeak(summit(2, 0.9, 2.2, 0, 0.1, 0.1, 0), 2)).toBeNull();
  });
});
