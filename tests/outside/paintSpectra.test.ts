import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, test } from "vitest";
import { xyzD50ToLab, xyzToLab } from "../../src/colour/lab.ts";
import { reflectanceToXyzD50 } from "../../src/colour/spectrum.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { mean } from "../../src/numeric/statistics.ts";
import { sharedData, sharedDataAvailable } from "../support/sharedData.ts";

const PALETTE = "spectra/paint-palette-spectra-400-700.tsv";
const OBSERVER = "spectra/cie-1931-colour-matching-and-illuminant.csv";
const available = sharedDataAvailable(PALETTE) && sharedDataAvailable(OBSERVER);

/** One wavelength of the published table: nm, observer, and the daylight components as that file prints them. */
interface ObserverRow {
  readonly nm: number;
  readonly bars: Triple;
  readonly S0: number;
  readonly S1: number;
  readonly S2: number;
}

const lines = (name: string): string[] =>
  readFileSync(sharedData(name), "latin1").trim().split(/\r?\n/).slice(1);

/** Reflectance 400 to 700 nm by 10, straight lines between, the ends held. */
function reflectanceAt(values: readonly number[], nm: number): number {
  const place = Math.min(30, Math.max(0, (nm - 400) / 10));
  const below = Math.min(29, Math.floor(place));
  return values[below] + (place - below) * (values[below + 1] - values[below]);
}

/**
 * CIELAB of a reflectance, written out once more and otherwise: from red to blue, one sum a wavelength with the light and the
 * observer of the published file, scaled to Y = 1 of the light, and relative to the white of those very sums.
 */
function integrate(
  values: readonly number[],
  observer: readonly ObserverRow[],
  light: (row: ObserverRow) => number,
  stepNm: number,
): Triple {
  const white = [0, 0, 0];
  const sum = [0, 0, 0];
  for (const row of [...observer].reverse()) {
    if (row.nm > 730 || row.nm % stepNm !== 0) continue;
    for (const c of [2, 1, 0]) {
      const weight = light(row) * row.bars[c];
      white[c] += weight;
      sum[c] += weight * reflectanceAt(values, row.nm);
    }
  }
  const over = (v: readonly number[]): Triple => [
    v[0] / white[1],
    v[1] / white[1],
    v[2] / white[1],
  ];
  return xyzToLab(over(sum), over(white));
}

/** Daylight of a chromaticity; S1 and S2 stand in the file at a tenth of the values of CIE 15. */
function daylight(M1: number, M2: number): (row: ObserverRow) => number {
  return ({ S0, S1, S2 }) => S0 + 10 * M1 * S1 + 10 * M2 * S2;
}

function factors(x: number, y: number): [number, number] {
  const m = 0.0241 + 0.2562 * x - 0.7341 * y;
  return [(-1.3515 - 1.7703 * x + 5.9114 * y) / m, (0.03 - 31.4424 * x + 30.0717 * y) / m];
}

describe.skipIf(!available)(
  `reflectances of 336 paints (Geldof et al. 2018, CC0)${available ? "" : " (skipped: no shared data)"}`,
  () => {
    let paints: number[][] = [];
    let observer: ObserverRow[] = [];
    let ours: Triple[] = [];
    beforeAll(() => {
      paints = lines(PALETTE).map((line) => line.split("\t").slice(1).map((cell) => Number(cell) / 100)); // prettier-ignore
      observer = lines(OBSERVER).map((line) => {
        const [nm, xBar, yBar, zBar, , , S0, S1, S2] = line.split(";").map(Number);
        return { nm, bars: [xBar, yBar, zBar], S0, S1, S2 };
      });
      ours = paints.map((values) => xyzD50ToLab(reflectanceToXyzD50(values)));
    });

    const distances = (light: (row: ObserverRow) => number, stepNm: number): number[] =>
      paints.map((values, i) => {
        const [L, a, b] = integrate(values, observer, light, stepNm);
        return Math.hypot(L - ours[i][0], a - ours[i][1], b - ours[i][2]);
      });

    test("the set is whole", () => {
      expect(paints).toHaveLength(336);
      expect(paints.every((values) => values.length === 31 && values.every((R) => R > 0 && R < 1))).toBe(true); // prettier-ignore
      // From near black to near white, strong reds and blues: not a handful of greys.
      expect(Math.max(...ours.map(([, a, b]) => Math.hypot(a, b)))).toBeGreaterThan(60);
    });

    test("the same light and step, summed in another way: within 0.01 of CIELAB", () => {
      const [M1, M2] = factors(0.34567, 0.3585);
      expect(Math.max(...distances(daylight(M1, M2), 10))).toBeLessThan(0.01);
    });

    test("D50 from its colour temperature, M rounded to three decimals as CIE 15 asks", () => {
      const T = 5000 * (1.4388 / 1.438);
      const x = -4.607e9 / T ** 3 + 2.9678e6 / T ** 2 + 0.09911e3 / T + 0.244063;
      const y = -3 * x * x + 2.87 * x - 0.275;
      const [M1, M2] = factors(x, y).map((M) => Math.round(1000 * M) / 1000);
      const apart = distances(daylight(M1, M2), 10);
      // The two roads to D50 differ by up to 0.3 % at the ends of the spectrum: 0.02 in the strongest colour.
      expect(mean(apart)).toBeLessThan(0.01);
      expect(Math.max(...apart)).toBeLessThan(0.03);
    });

    test("5 nm and straight lines between the measured values", () => {
      const [M1, M2] = factors(0.34567, 0.3585);
      const apart = distances(daylight(M1, M2), 5);
      // What 10 nm cost against 5 nm: 0.06 on average, 0.4 where an eosin lake climbs from 5 to 60 % in 20 nm.
      expect(mean(apart)).toBeLessThan(0.1);
      expect(Math.max(...apart)).toBeLessThan(0.5);
    });
  },
);
