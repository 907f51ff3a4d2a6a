import { describe, expect, test } from "vitest";
import { FAST_LOST_DENSITY, fastBoundPerCm } from "../../src/bath/fastBound.ts";
import { choosePalette } from "../../src/bath/palette.ts";
import { fitPaper } from "../../src/print/fitPaper.ts";
import { lostDensity } from "../../src/bath/predictFade.ts";
import { colourantSpectrum } from "../../src/print/spectra.ts";
import { sheetLab } from "../../src/print/twoLayerSheet.ts";
import { ciede2000 } from "../../src/colour/ciede2000.ts";
import type { Triple } from "../../src/numeric/triple.ts";

const VOLUME_ML = 500;
const PAPER: Triple = [78, 3, 19];
/** What one fixed bound for every cover would be, per cm: the bound that this one took the place of. */
const FIXED_PER_CM = 0.001;

/** Fade of a red solid of density 0.55 on aged paper. */
function redDeltaE00(lost: number): number {
  const paperK = fitPaper(PAPER);
  const red = (density: number) =>
    sheetLab(paperK, [{ spectrum: colourantSpectrum("red"), density }]);
  return ciede2000(red(0.55), red(0.55 - lost));
}

describe("how much a fast blotter bounds (500 mL)", () => {
  test.each([
    [10, 0.05, 0.76, 1.1],
    [31, 0.016, 0.24, 3.4],
    [55, 0.0091, 0.13, 6.0],
    [90, 0.0056, 0.08, 9.9],
    [150, 0.0033, 0.05, 16.5],
  ])(
    "%d cm2: a fixed 0.001 per cm would claim a loss under %d, %d dE00, as if blotters took up %d times as much",
    (areaCm2, density, deltaE00, transfer) => {
      const claimed = lostDensity(FIXED_PER_CM, VOLUME_ML, areaCm2);
      // Printed figures: half a unit of the last digit.
      expect(Math.abs(claimed - density)).toBeLessThan(density < 0.01 ? 0.00006 : 0.0005);
      // The printed fades are of another aged paper: they hold to a quarter.
      expect(Math.abs(redDeltaE00(claimed) / deltaE00 - 1)).toBeLessThan(0.25);
      expect(Math.abs(0.055 / claimed - transfer)).toBeLessThan(0.06);
      // The bound allows the same loss whatever the area, as the very same stain must.
      const bound = fastBoundPerCm(areaCm2, VOLUME_ML) ?? NaN;
      expect(lostDensity(bound, VOLUME_ML, areaCm2)).toBeCloseTo(FAST_LOST_DENSITY, 12);
      expect(bound).toBeCloseTo((0.055 * areaCm2) / VOLUME_ML, 12);
    },
  );

  test.each([
    ["no area", null, 500],
    ["no volume", 90, null],
    ["an area that is no number", NaN, 500],
    ["a volume of nothing", 90, 0],
  ])("%s: no bound", (_, areaCm2, volumeMl) => {
    expect(fastBoundPerCm(areaCm2, volumeMl)).toBeNull();
  });

  test("half the liquid holds twice as much of it per cm", () => {
    expect(fastBoundPerCm(90, 250)).toBeCloseTo(2 * (fastBoundPerCm(90, 500) ?? NaN), 12);
  });

  test("only a fast ink of known area in a known volume is bounded", () => {
    const lab: Triple = [59.84, 45.33, 33.97];
    const bounds = (volumeMl: number | null) =>
      choosePalette(
        [
          { id: "fast", lab, blot: "fast", areaCm2: 90 },
          { id: "no area", lab, blot: "fast" },
          { id: "doubtful", lab, blot: "doubtful", areaCm2: 90 },
          { id: "bleeds", lab, blot: "bleeds", areaCm2: 90 },
          { id: "untested", lab, blot: "untested", areaCm2: 90 },
        ],
        PAPER,
        null,
        volumeMl,
      ).inks.map(({ boundPerCm }) => boundPerCm);
    expect(bounds(500)[0]).toBeCloseTo(0.0099, 12);
    expect(bounds(500).slice(1)).toEqual([null, null, null, null]);
    expect(bounds(null)).toEqual([null, null, null, null, null]);
  });
});
