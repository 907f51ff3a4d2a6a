import { expect, test } from "vitest";
import { seededRandom } from "../../src/numeric/random.ts";
import { spreadKeyPoints } from "../../src/register/spreadKeyPoints.ts";

test("lettering in one corner doesn't take every place", () => {
  const random = seededRandom(3);
  const xy: number[] = [];
  const response: number[] = [];
  // 3000 strong points in a ninth of the picture, 600 weak ones over all of it.
  for (let i = 0; i < 3600; i++) {
    const part = i < 3000 ? 1 / 3 : 1;
    xy.push(480 * part * random.uniform(), 480 * part * random.uniform());
    response.push(i < 3000 ? 1 + random.uniform() : random.uniform());
  }
  const kept = spreadKeyPoints(Float64Array.from(xy), Float64Array.from(response), 480, 480, 1000);
  expect(kept.length).toBeGreaterThanOrEqual(1000);
  expect(kept.length).toBeLessThan(1000 + 24 * 24);
  const elsewhere = kept.filter((i) => xy[2 * i] > 160 || xy[2 * i + 1] > 160);
  // The weak points of the other cells are few enough to stay, all of them.
  expect(elsewhere.length).toBe(
    response.filter((_, i) => xy[2 * i] > 160 || xy[2 * i + 1] > 160).length,
  );
  expect(kept).toEqual([...kept].sort((a, b) => a - b));
});

test("keeps the strongest of a cell, and all where there are few", () => {
  const xy = Float64Array.of(1, 1, 2, 2, 3, 3, 200, 10);
  const response = Float64Array.of(0.1, 0.9, 0.5, 0.2);
  expect(spreadKeyPoints(xy, response, 480, 240, 10)).toEqual([0, 1, 2, 3]);
  expect(spreadKeyPoints(xy, response, 480, 240, 2)).toEqual([1, 3]);
});
