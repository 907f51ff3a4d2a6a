import { expect, test } from "vitest";
import { measuredCells } from "../../src/compare/measuredCells.ts";
import type { RegionMap } from "../../src/regions/regionMap.ts";

const [WIDTH, HEIGHT] = [30, 10];
const SIZE = WIDTH * HEIGHT;
const byColumn = (of: (x: number) => number): Uint8Array =>
  Uint8Array.from({ length: SIZE }, (_, i) => of(i % WIDTH));

/** Bed on two columns at the left, ink on the next ten, paper on the rest; the border of ink and paper is mixed. */
const map: RegionMap = {
  width: WIDTH,
  height: HEIGHT,
  labels: byColumn((x) => (x < 2 ? 0 : x < 12 ? 1 : 255)),
  cores: byColumn((x) => (x > 5 && x < 9 ? 1 : x > 15 ? 255 : 0)),
  mixed: byColumn((x) => (x === 11 || x === 12 ? 1 : 0)),
  components: Uint16Array.from(byColumn((x) => (x >= 2 && x < 12 ? 7 : 0))),
  inks: [],
  paper: null,
  sought: { source: "none", lab: null, sigmaDeltaE00: null },
  sheet: { mask: byColumn((x) => (x < 2 ? 0 : 1)), box: null, bedLab: null, notes: [] },
};
const columns = (cells: Int32Array | undefined): number[] =>
  [...new Set([...(cells ?? [])].map((i) => i % WIDTH))].sort((a, b) => a - b);

test("an ink speaks up to its mixtures and clear of the sheet's edge, paper by its cores alone", () => {
  // Cells of 0.5 mm: 1 mm clear of the bed is the second cell of the ink.
  const { ofLabel, ofRegion } = measuredCells(
    map,
    0.5,
    byColumn(() => 1),
  );
  expect(columns(ofLabel.get(1))).toEqual([3, 4, 5, 6, 7, 8, 9, 10]);
  expect(columns(ofLabel.get(255))).toEqual([...Array(14).keys()].map((k) => k + 16));
  expect(ofRegion.get(7)).toEqual(ofLabel.get(1));
  expect(ofLabel.has(0)).toBe(false);
});

test("what is not usable is in no list", () => {
  const { ofLabel } = measuredCells(
    map,
    0.5,
    byColumn((x) => (x === 5 || x > 12 ? 0 : 1)),
  );
  expect(columns(ofLabel.get(1))).toEqual([3, 4, 6, 7, 8, 9, 10]);
  expect(ofLabel.has(255)).toBe(false);
});

test("shading counts well inside its ink, not within 1 mm of another colour or of a stranger", () => {
  // All of the ink lies off its colour; one stranger in the middle of it.
  const shaded = {
    ...map,
    mixed: byColumn((x) => (x >= 2 && x < 12 ? 2 : 0)).map((value, i) => (i === 7 ? 3 : value)),
  };
  const cells =
    measuredCells(
      shaded,
      0.25,
      byColumn(() => 1),
    ).ofLabel.get(1) ?? new Int32Array();
  // Cells of 0.25 mm: four away from the borders at 2 and 11.
  expect(columns(cells)).toEqual([6, 7]);
  expect(cells.includes(7)).toBe(false);
  expect(cells.includes(7 + 3 * WIDTH)).toBe(false);
  expect(cells.includes(7 + 5 * WIDTH)).toBe(true);
});
