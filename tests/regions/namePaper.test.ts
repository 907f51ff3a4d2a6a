import { expect, test } from "vitest";
import type { Triple } from "../../src/numeric/triple.ts";
import type { ModeStatistics } from "../../src/regions/modeStatistics.ts";
import { namePaper } from "../../src/regions/namePaper.ts";

interface Colour {
  readonly lab: Triple;
  readonly share: number;
  /** Part of its cells that lies in the sheet's rim. Default 0.3. */
  readonly rim?: number;
  /** Sharpness of its border with every other colour. Default a printed edge. */
  readonly sharpness?: number;
}

function sheet(colours: readonly Colour[]): ModeStatistics[] {
  const sharp = colours.map(({ sharpness = 0.95 }) => sharpness);
  return colours.map(({ lab, share, rim = 0.3 }, k) => ({
    lab,
    cells: 100_000 * share,
    rimCells: 100_000 * share * rim,
    sharpness: colours.map((_, m) => Math.min(sharp[k], sharp[m])),
  }));
}

const RED: Colour = { lab: [47, 54, 28], share: 0.4 };
const YELLOW: Colour = { lab: [78, 1, 62], share: 0.3 };
const BLACK: Colour = { lab: [24, 1, 3], share: 0.1 };

test("paper of 6 % of the sheet is found among larger inks", () => {
  const paper: Colour = { lab: [80, 3, 18], share: 0.06, rim: 0.9 };
  expect(namePaper(sheet([RED, YELLOW, BLACK, paper]))).toEqual({ main: 3, others: [] });
});

test("badly browned paper and almost white paper are paper", () => {
  expect(namePaper(sheet([RED, { lab: [66, 7, 26], share: 0.2 }]))?.main).toBe(1);
  expect(namePaper(sheet([RED, { lab: [91, 0, 2], share: 0.2 }]))?.main).toBe(1);
});

test("no paper: printed all over, or nothing light and pale in the rim", () => {
  expect(namePaper(sheet([RED, YELLOW, BLACK]))).toBeNull();
  expect(namePaper(sheet([RED, { lab: [80, -6, -8], share: 0.4 }]))).toBeNull();
  expect(namePaper(sheet([RED, { lab: [80, 3, 18], share: 0.1, rim: 0 }]))).toBeNull();
  expect(namePaper([])).toBeNull();
});

test("a tan tint is no paper where something is printed lighter: ink only takes light away", () => {
  const tan: Colour = { lab: [68, 6, 24], share: 0.3 };
  const sky: Colour = { lab: [84, -6, -6], share: 0.2 };
  expect(namePaper(sheet([tan, RED]))?.main).toBe(0);
  expect(namePaper(sheet([tan, sky, RED]))).toBeNull();
});

test("browning and soil that fade out are paper, the largest gives its colour", () => {
  const clean: Colour = { lab: [82, 3, 16], share: 0.2 };
  const browned: Colour = { lab: [74, 6, 24], share: 0.25, sharpness: 0.3 };
  const dusty: Colour = { lab: [74, 2, 14], share: 0.05, sharpness: 0.2 };
  expect(namePaper(sheet([RED, clean, browned, dusty]))).toEqual({ main: 2, others: [1, 3] });
});

test("the same colours with printed edges are inks, and so is a pale blue that fades out", () => {
  const clean: Colour = { lab: [82, 3, 16], share: 0.2 };
  const tan: Colour = { lab: [74, 6, 24], share: 0.15 };
  const sky: Colour = { lab: [78, -3, 4], share: 0.15, sharpness: 0.2 };
  const straw: Colour = { lab: [81, 2, 34], share: 0.1, sharpness: 0.2 };
  expect(namePaper(sheet([RED, clean, tan, sky, straw]))).toEqual({ main: 1, others: [] });
});
