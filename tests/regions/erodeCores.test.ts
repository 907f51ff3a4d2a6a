import { expect, test } from "vitest";
import { erodeCores } from "../../src/regions/erodeCores.ts";

const WIDTH = 30;
const HEIGHT = 20;
const GRID = { width: WIDTH, height: HEIGHT, mmPerCell: 0.25 };

/** Two labels side by side on a sheet with a border of nothing, 4 cells a mm. */
function twoHalves(): Uint8Array {
  const labels = new Uint8Array(WIDTH * HEIGHT);
  for (let y = 1; y < HEIGHT - 1; y++)
    for (let x = 1; x < WIDTH - 1; x++) labels[y * WIDTH + x] = x < 15 ? 1 : 2;
  return labels;
}

const NONE = new Uint8Array(WIDTH * HEIGHT);

test("cores lie at least 1 mm from every other label, from the sheet's edge and from the frame", () => {
  const labels = twoHalves();
  const cores = erodeCores(labels, GRID, NONE, NONE);
  let cells = 0;
  for (let i = 0; i < cores.length; i++) {
    if (cores[i] === 0) continue;
    cells++;
    expect(cores[i]).toBe(labels[i]);
    const x = i % WIDTH;
    const y = Math.floor(i / WIDTH);
    // From the centre of the cell to the line between the labels, in cells of 0.25 mm.
    for (const edge of [0.5, 14.5, WIDTH - 1.5])
      expect(Math.abs(x - edge)).toBeGreaterThanOrEqual(4);
    for (const edge of [0.5, HEIGHT - 1.5]) expect(Math.abs(y - edge)).toBeGreaterThanOrEqual(4);
  }
  // 14 - 8 columns of 18 - 8 rows, twice: nothing more is lost than 1 mm on each side.
  expect(cells).toBe(2 * 6 * 10);
});

test("unfit cells drop out alone, strangers with their surroundings", () => {
  const at = 10 * WIDTH + 7;
  const marked = NONE.slice();
  marked[at] = 1;
  const all = erodeCores(twoHalves(), GRID, NONE, NONE);
  const unfit = erodeCores(twoHalves(), GRID, marked, NONE);
  expect(Array.from(all.keys()).filter((i) => all[i] !== unfit[i])).toEqual([at]);
  const strangers = erodeCores(twoHalves(), GRID, NONE, marked);
  for (let i = 0; i < all.length; i++) {
    // From the square that the stranger fills to the centre of the cell.
    const dx = Math.max(0, Math.abs((i % WIDTH) - 7) - 0.5);
    const dy = Math.max(0, Math.abs(Math.floor(i / WIDTH) - 10) - 0.5);
    if (Math.hypot(dx, dy) < 3.5) expect(strangers[i]).toBe(0);
    else if (Math.hypot(dx, dy) > 4.5) expect(strangers[i]).toBe(all[i]);
  }
});

test("line work thinner than 2 mm has no core", () => {
  const labels = new Uint8Array(WIDTH * HEIGHT).fill(1);
  for (let y = 0; y < HEIGHT; y++) labels.fill(2, y * WIDTH + 10, y * WIDTH + 17);
  const cores = erodeCores(labels, GRID, NONE, NONE);
  expect(cores.includes(2)).toBe(false);
  expect(cores.includes(1)).toBe(true);
});
