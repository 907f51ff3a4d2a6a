import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { OBSERVER_AND_DAYLIGHT } from "../../calibration/observer-and-daylight.ts";
import { xyzD50ToLab } from "../../src/colour/lab.ts";
import { reflectanceToXyzD50 } from "../../src/colour/spectrum.ts";
import { sharedData, sharedDataAvailable } from "../support/sharedData.ts";

const FILE = "spectra/paint-palette-spectra-400-700.tsv";
const available = sharedDataAvailable(FILE);
const note = available ? "" : " (skipped: no shared data)";

/** White of the product, written out again so that the sum below stands on its own. */
const WHITE = [0.96422, 1, 0.82521];

/** D50 by the daylight formula with the factors M1, M2 of CIE 15 worked out for x 0.34567, y 0.35850. */
function d50(): number[] {
  const [x, y] = [0.34567, 0.3585];
  const below = 0.0241 + 0.2562 * x - 0.7341 * y;
  const M1 = (-1.3515 - 1.7703 * x + 5.9114 * y) / below;
  const M2 = (0.03 - 31.4424 * x + 30.0717 * y) / below;
  return OBSERVER_AND_DAYLIGHT.map((row) => row[3] + M1 * row[4] + M2 * row[5]);
}

/**
 * CIELAB D50 by a plain sum over wavelengths, written without the product's weights: from the long end, light and observer looked up row by
 * row, end values held to 380 and 730 nm.
 */
function labBySum(percent: readonly number[]): number[] {
  const light = d50();
  const at = (nm: number): number => percent[Math.min(30, Math.max(0, (nm - 400) / 10))] / 100;
  const f = [0, 1, 2].map((c) => {
    let sum = 0;
    let all = 0;
    for (let nm = 730; nm >= 380; nm -= 10) {
      const row = (nm - 380) / 5;
      const weight = OBSERVER_AND_DAYLIGHT[row][c] * light[row];
      sum += weight * at(nm);
      all += weight;
    }
    const t = (WHITE[c] * sum) / all / WHITE[c];
    return t > 216 / 24389 ? t ** (1 / 3) : ((24389 / 27) * t + 16) / 116;
  });
  return [116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])];
}

describe.skipIf(!available)(
  `pigment spectra of an open paint palette (CC0, Geldof et al. 2018)${note}`,
  () => {
    test("CIELAB of all 336 rows against an independent spectral sum, within 0.01", () => {
      const lines = readFileSync(sharedData(FILE), "utf8").trim().split(/\r?\n/).slice(1);
      expect(lines.length).toBe(336);
      let worst = 0;
      for (const line of lines) {
        const percent = line.split("\t").slice(1, 32).map(Number);
        const lab = xyzD50ToLab(reflectanceToXyzD50(percent.map((value) => value / 100)));
        labBySum(percent).forEach((value, i) => {
          worst = Math.max(worst, Math.abs(value - lab[i]));
        });
      }
      expect(worst).toBeLessThan(0.01);
    });
  },
);
