import { expect, test } from "vitest";
import { ciede2000 } from "../../src/colour/ciede2000.ts";
import type { LabPlanes } from "../../src/change/differenceMap.ts";
import { selfConsistency } from "../../src/compare/selfConsistency.ts";

const [WIDTH, HEIGHT] = [30, 20];

/** L* falls by so much a cell to the right. */
function ramp(slope: number): LabPlanes {
  const plane = (value: (column: number) => number) =>
    Float32Array.from({ length: WIDTH * HEIGHT }, (_, i) => value(i % WIDTH));
  return [plane((column) => 60 - slope * column), plane(() => 3), plane(() => 15)];
}

const everywhere = new Uint8Array(WIDTH * HEIGHT).fill(1);
/** Only one column of cells: L* is one value there. */
const column = (at: number) => everywhere.map((_, i) => (i % WIDTH === at ? 1 : 0));

test("what a shift feigns is the slope times the shift", () => {
  const shown = selfConsistency(ramp(0.5), WIDTH, 0.4, column(10));
  expect(shown).toBeCloseTo(ciede2000([55, 3, 15], [55 - 0.2, 3, 15]), 4);
});

test("none where the picture is flat, or placed without residual", () => {
  expect(selfConsistency(ramp(0), WIDTH, 3, everywhere)).toBeCloseTo(0, 6);
  expect(selfConsistency(ramp(2), WIDTH, 0, everywhere)).toBeCloseTo(0, 6);
});

test("only cores count, cells without data don't, and where none is left it is not known", () => {
  const edge = ramp(0);
  edge[0].fill(20, 5 * WIDTH, 6 * WIDTH);
  const noEdge = everywhere.map((_, i) => (i >= 3 * WIDTH && i < 7 * WIDTH ? 0 : 1));
  expect(selfConsistency(edge, WIDTH, 0.5, noEdge)).toBeCloseTo(0, 6);
  expect(selfConsistency(edge, WIDTH, 0.5, everywhere)).toBeGreaterThan(5);
  edge[1].fill(NaN);
  expect(selfConsistency(edge, WIDTH, 0.5, everywhere)).toBeNull();
  expect(selfConsistency(ramp(1), WIDTH, 0.5, new Uint8Array(WIDTH * HEIGHT))).toBeNull();
});
