import { expect, test } from "vitest";
import { summedAreas, sumUpInPlace, sumWithin, windowAbout } from "../../src/grid/summedArea.ts";
import { seededRandom } from "../../src/numeric/random.ts";

test("any window holds the sum of its cells, at the rim of those that exist", () => {
  const random = seededRandom(3);
  const [width, height] = [7, 5];
  // Whole numbers: every order of adding gives the same.
  const values = Array.from({ length: width * height }, () => Math.floor(100 * random.uniform()));
  const [sums, counts] = summedAreas(width, height, 2, (x, y, out) => {
    out[0] = values[y * width + x];
    out[1] = 1;
  });
  const gathered = new Float64Array((width + 1) * (height + 1));
  values.forEach((value, i) => {
    gathered[(Math.floor(i / width) + 1) * (width + 1) + (i % width) + 1] = value;
  });
  sumUpInPlace(gathered, width, height);
  expect(gathered).toEqual(sums);
  for (const [x, y, reach] of [
    [3, 2, 1],
    [0, 0, 2],
    [6, 4, 3],
    [2, 4, 0],
  ]) {
    const inside = values.filter(
      (_, i) => Math.abs((i % width) - x) <= reach && Math.abs(Math.floor(i / width) - y) <= reach,
    );
    const at = windowAbout(x, y, reach, { width, height });
    expect(sumWithin(sums, at)).toBe(inside.reduce((sum, value) => sum + value, 0));
    expect(sumWithin(counts, at)).toBe(inside.length);
  }
});
