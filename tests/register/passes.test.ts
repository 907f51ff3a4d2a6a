import { expect, test } from "vitest";
import { passesFor } from "../../src/register/passes.ts";

const resolutions = (dpi: number): number[] => passesFor(dpi).map((pass) => pass.dpi);

test("no pass is finer than the coarser frame", () => {
  expect(resolutions(600)).toEqual([48, 96, 96, 150, 150, 300, 300]);
  expect(resolutions(300)).toEqual([48, 96, 96, 150, 150, 300, 300]);
  expect(resolutions(150)).toEqual([48, 96, 96, 150, 150]);
  expect(resolutions(149.4)).toEqual([48, 96, 96, 150, 150]);
  expect(resolutions(100)).toEqual([48, 96, 96]);
  expect(resolutions(40)).toEqual([]);
});

test("between 200 and 300 dpi the last passes come down, with windows of as many pixels", () => {
  expect(resolutions(240)).toEqual([48, 96, 96, 150, 150, 240, 240]);
  expect(passesFor(240)[6].windowMm).toBeCloseTo(5 * (300 / 240), 12);
  expect(resolutions(180)).toEqual([48, 96, 96, 150, 150]);
});
