import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { ciede2000 } from "../../src/colour/ciede2000.ts";
import { xyzToLab } from "../../src/colour/lab.ts";
import type { Triple } from "../../src/colour/triple.ts";
import { mean, quantile } from "../../src/numeric/statistics.ts";
import { sharedData, sharedDataAvailable } from "../support/sharedData.ts";

interface VisualSet {
  readonly reference_white: Triple;
  readonly dv: readonly number[];
  readonly pairs: readonly (readonly [number, number])[];
  readonly xyz: readonly Triple[];
}

const available = sharedDataAvailable("visual-difference/witt.json");
const note = available ? "" : " (skipped: no shared data)";

function read(name: string): { differences: number[]; visual: readonly number[] } {
  const path = sharedData(`visual-difference/${name}.json`);
  const { reference_white, dv, pairs, xyz } = JSON.parse(readFileSync(path, "utf8")) as VisualSet;
  const labs = xyz.map((colour) => xyzToLab(colour, reference_white));
  return { differences: pairs.map(([i, j]) => ciede2000(labs[i], labs[j])), visual: dv };
}

function correlation(a: readonly number[], b: readonly number[]): number {
  const [ma, mb] = [mean(a), mean(b)];
  let ab = 0;
  let aa = 0;
  let bb = 0;
  for (let i = 0; i < a.length; i++) {
    ab += (a[i] - ma) * (b[i] - mb);
    aa += (a[i] - ma) ** 2;
    bb += (b[i] - mb) ** 2;
  }
  return ab / Math.sqrt(aa * bb);
}

// Figures computed elsewhere from the same sets, printed to 2 decimals.
describe.skipIf(!available)(`CIEDE2000 against eyes${note}`, () => {
  test.each([
    ["witt", 0.82],
    ["leeds", 0.77],
  ])("public visual-difference set %s: correlation %f", (name, printed) => {
    const { differences, visual } = read(name);
    expect(Math.abs(correlation(differences, visual) - printed)).toBeLessThanOrEqual(0.005);
  });

  test("public set of 312 pairs at one visual threshold: median 0.95, 5 to 95 % 0.73 to 1.35", () => {
    const { differences } = read("rit-dupont");
    expect(differences).toHaveLength(312);
    const printed = [
      [0.5, 0.95],
      [0.05, 0.73],
      [0.95, 1.35],
    ] as const;
    for (const [share, value] of printed)
      expect(Math.abs(quantile(differences, share) - value)).toBeLessThanOrEqual(0.005);
  });
});
