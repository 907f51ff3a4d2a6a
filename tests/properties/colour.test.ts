import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { adaptationMatrix } from "../../src/colour/adapt.ts";
import { ciede2000 } from "../../src/colour/ciede2000.ts";
import { labToXyzD50, xyzD50ToLab } from "../../src/colour/lab.ts";
import { decodeSrgb, encodeSrgb } from "../../src/colour/srgb.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { WHITE_D50, WHITE_D65 } from "../../src/colour/whites.ts";
import { multiply3Vector } from "../../src/numeric/matrix3.ts";

/** Printed on failure by the runner; the same draws every time. */
const SEEDED = { seed: 20, numRuns: 500 };

const finite = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const lab = fc.tuple(finite(0, 100), finite(-100, 100), finite(-100, 100));
const xyz = fc.tuple(finite(0, 1), finite(0, 1), finite(0, 1));

function near(actual: Triple, wanted: Triple, tolerance: number): void {
  wanted.forEach((value, i) => expect(Math.abs(actual[i] - value)).toBeLessThan(tolerance));
}

describe("laws of the colour formulas", () => {
  test("CIEDE2000 is symmetric, zero on itself, never negative", () => {
    fc.assert(
      fc.property(lab, lab, (one, other) => {
        const there = ciede2000(one, other);
        expect(there).toBeGreaterThanOrEqual(0);
        // Only the order of additions differs.
        expect(Math.abs(ciede2000(other, one) - there)).toBeLessThan(1e-9);
        expect(ciede2000(one, one)).toBe(0);
      }),
      SEEDED,
    );
  });

  test("on the grey axis CIEDE2000 grows with the lightness difference", () => {
    fc.assert(
      fc.property(finite(5, 60), finite(0.1, 15), finite(0.1, 15), (L, step, more) => {
        expect(ciede2000([L, 0, 0], [L + step + more, 0, 0])).toBeGreaterThan(
          ciede2000([L, 0, 0], [L + step, 0, 0]),
        );
      }),
      SEEDED,
    );
  });

  test("XYZ to CIELAB and back", () => {
    fc.assert(
      fc.property(xyz, (colour) => {
        near(labToXyzD50(xyzD50ToLab(colour)), colour, 1e-12);
      }),
      SEEDED,
    );
  });

  test("sRGB decoded and encoded again; decoding rises with the code", () => {
    fc.assert(
      fc.property(finite(0, 1), finite(1e-6, 0.1), (code, step) => {
        // The standard's two branches meet to within 1e-7 of linear light.
        expect(Math.abs(encodeSrgb(decodeSrgb(code)) - code)).toBeLessThan(1e-6);
        expect(decodeSrgb(code + step)).toBeGreaterThan(decodeSrgb(code));
      }),
      SEEDED,
    );
  });

  test("adaptation there and back is nothing, and white becomes white", () => {
    const there = adaptationMatrix(WHITE_D65, WHITE_D50);
    const back = adaptationMatrix(WHITE_D50, WHITE_D65);
    near(multiply3Vector(there, WHITE_D65), WHITE_D50, 1e-12);
    fc.assert(
      fc.property(xyz, (colour) => {
        near(multiply3Vector(back, multiply3Vector(there, colour)), colour, 1e-12);
      }),
      SEEDED,
    );
  });
});
