import { describe, expect, test } from "vitest";
import { labToXyzD50, xyzD50ToLab } from "../../src/colour/lab.ts";
import { encodeSrgb } from "../../src/colour/srgb.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { WHITE_D50 } from "../../src/colour/whites.ts";
import { linearPlanes } from "../../src/raster/linearPlanes.ts";
import type { Raster } from "../../src/raster/raster.ts";
import { srgbTables } from "../../src/raster/srgbTables.ts";
import { absorbanceOnPaper } from "../../src/regions/absorbanceOnPaper.ts";

/** A grey of this reflectance under D50. */
const grey = (R: number): Triple =>
  xyzD50ToLab([R * WHITE_D50[0], R * WHITE_D50[1], R * WHITE_D50[2]]);
const PERFECT_WHITE = grey(1);

describe("optical density D = -log10(R / R0) (ISO 5-1, definition)", () => {
  // Printed to four decimals.
  test.each([
    [1, 0],
    [0.8, 0.0969],
    [0.5, 0.301],
    [0.25, 0.6021],
    [0.1, 1],
    [0.05, 1.301],
    [0.01, 2],
  ])("reflectance %d has density %d in every band", (R, D) => {
    for (const band of absorbanceOnPaper(grey(R), PERFECT_WHITE)) expect(band).toBeCloseTo(D, 4);
  });

  test("densities over the paper and of the paper add", () => {
    const [overPaper] = absorbanceOnPaper(grey(0.08), grey(0.8));
    const [paper] = absorbanceOnPaper(grey(0.8), PERFECT_WHITE);
    expect(overPaper + paper).toBeCloseTo(-Math.log10(0.08), 9);
  });
});

describe("lightness, luminance and density (formula of CIE 15; worked elsewhere, printed digits)", () => {
  test.each([
    [50, 18.419, 0.7347],
    [82, 60.298, 0.2197],
    [20, 2.989, 1.5245],
    // Below L* 8 the formula is a straight line: Y = L* / 903.296.
    [5, 0.5535, 2.2569],
  ])("L* %d: Y %d percent, D %d", (L, percent, D) => {
    expect(100 * labToXyzD50([L, 0, 0])[1]).toBeCloseTo(percent, 3);
    expect(absorbanceOnPaper([L, 0, 0], PERFECT_WHITE)[1]).toBeCloseTo(D, 4);
  });
});

describe("dot area of Murray & Davies (1936), a = (1 - 10^-(Dt - Dp)) / (1 - 10^-(Ds - Dp))", () => {
  const murrayDavies = (paper: number, tint: number, solid: number): number =>
    (1 - 10 ** -(tint - paper)) / (1 - 10 ** -(solid - paper));

  test("paper 0.10, tint 0.40, solid 1.10: 0.5542 (worked elsewhere, 4 decimals)", () => {
    expect(murrayDavies(0.1, 0.4, 1.1)).toBeCloseTo(0.5542, 4);
  });

  // Halftones are averaged in linear light: only then does the density of a screen tell how much of it is ink.
  test.each([
    [100, 0.01],
    [2771, 0.2771],
    [5542, 0.5542],
    [9000, 0.9],
  ])("%i dots of 10,000, averaged and measured as density, give the area %d back", (dots, area) => {
    const code = (D: number): number => Math.round(65535 * encodeSrgb(10 ** -D));
    const [paper, solid] = [0.1, 1.1].map(code);
    const data = Uint16Array.from({ length: 30_000 }, (_, i) =>
      Math.floor(i / 3) < dots ? solid : paper,
    );
    const raster: Raster = { width: 100, height: 100, bitDepth: 16, data };
    const [mean] = linearPlanes(raster, srgbTables(16), 100).channels[0];
    const [tint] = absorbanceOnPaper(grey(mean), PERFECT_WHITE);
    // Codes of 16 bit and single precision: the densities of paper and solid are good to about 2e-5.
    expect(Math.abs(murrayDavies(0.1, tint, 1.1) - area)).toBeLessThan(1e-4);
  });
});
