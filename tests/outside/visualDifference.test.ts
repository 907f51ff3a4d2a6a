import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { ciede2000 } from "../../src/colour/ciede2000.ts";
import { xyzToLab } from "../../src/colour/lab.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { mean, quantiles } from "../../src/numeric/statistics.ts";
import { sharedData, sharedDataAvailable } from "../support/sharedData.ts";

interface VisualSet {
  readonly reference_white: Triple;
  /** Visual difference of each pair. */
  readonly dv: readonly number[];
  readonly pairs: readonly (readonly [number, number])[];
  readonly xyz: readonly Triple[];
}

const available = ["witt", "leeds", "rit-dupont"].every((name) =>
  sharedDataAvailable(`visual-difference/${name}.json`),
);

function differences(name: string): { dE00: number[]; dEab: number[]; dv: readonly number[] } {
  const file = sharedData(`visual-difference/${name}.json`);
  const { reference_white: white, dv, pairs, xyz } = JSON.parse(readFileSync(file, "utf8")) as VisualSet; // prettier-ignore
  const labs = xyz.map((one) => xyzToLab(one, white));
  return {
    dv,
    dE00: pairs.map(([i, j]) => ciede2000(labs[i], labs[j])),
    dEab: pairs.map(([i, j]) => Math.hypot(...labs[i].map((value, c) => value - labs[j][c]))),
  };
}

/** Pearson's correlation. */
function correlation(x: readonly number[], y: readonly number[]): number {
  const [mx, my] = [mean(x), mean(y)];
  const product = x.reduce((sum, value, i) => sum + (value - mx) * (y[i] - my), 0);
  return product / Math.hypot(...x.map((v) => v - mx)) / Math.hypot(...y.map((v) => v - my));
}

describe.skipIf(!available)(
  `what observers saw (sets of the combined visual-difference data, MIT)${available ? "" : " (skipped: no shared data)"}`,
  () => {
    // Correlations worked elsewhere, two decimals: half a unit of the last.
    test.each([
      ["witt", 418, 0.82],
      ["leeds", 307, 0.77],
    ])("%s, %i pairs: dE00 goes with the visual scale, r = %d", (name, count, r) => {
      const { dE00, dEab, dv } = differences(name);
      expect(dE00).toHaveLength(count);
      expect(Math.abs(correlation(dE00, dv) - r)).toBeLessThan(0.005);
      // The reason for CIEDE2000: the plain distance follows the eye far less well.
      expect(correlation(dEab, dv)).toBeLessThan(r - 0.2);
    });

    test("a third set, 312 pairs at one visual threshold: median 0.95, 5 to 95 % 0.73 to 1.35; plain distance 1.35", () => {
      const { dE00, dEab, dv } = differences("rit-dupont");
      expect(dE00).toHaveLength(312);
      expect(new Set(dv).size).toBe(1);
      quantiles(dE00, 0.05, 0.5, 0.95).forEach((value, i) =>
        expect(Math.abs(value - [0.73, 0.95, 1.35][i])).toBeLessThan(0.005),
      );
      expect(Math.abs(quantiles(dEab, 0.5)[0] - 1.35)).toBeLessThan(0.005);
    });
  },
);
