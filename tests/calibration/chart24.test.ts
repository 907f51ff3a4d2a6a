import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { CHART24_1976_XYY_C } from "../../calibration/chart24-1976.ts";
import { cardNamed, CARDS, DEFAULT_CARD_NAME } from "../../src/card/cards.ts";
import { adaptationMatrix } from "../../src/colour/adapt.ts";
import { ciede2000 } from "../../src/colour/ciede2000.ts";
import { xyzToLab } from "../../src/colour/lab.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { WHITE_C } from "../../src/colour/whites.ts";
import { multiply3Vector } from "../../src/numeric/matrix3.ts";
import { sharedData, sharedDataAvailable } from "../support/sharedData.ts";

interface Table {
  readonly patches: readonly { readonly name: string; readonly Lab_D50: Triple }[];
}

function differences(a: string, b: string): number[] {
  const left = cardNamed(a)?.patches ?? [];
  const right = cardNamed(b)?.patches ?? [];
  return left.map((patch, i) => ciede2000(patch.lab, right[i].lab));
}

const mean = (values: number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;

test("three editions of 24 patches, white to black neutral, the default among them", () => {
  expect(CARDS.filter((card) => card.name.startsWith("chart24-"))).toHaveLength(3);
  expect(cardNamed(DEFAULT_CARD_NAME)?.name).toBe("chart24-post2014");
  for (const card of CARDS.filter(({ name }) => name.startsWith("chart24-"))) {
    expect(card.patches).toHaveLength(card.rows * card.columns);
    for (const { lab, neutral, name } of card.patches)
      // Greys of all editions stay under chroma 3.2 (the 2014 white); the least saturated colour has 18.
      expect(Math.hypot(lab[1], lab[2]) < 4, name).toBe(neutral);
  }
});

test("editions differ as another program found", () => {
  // Mean and largest CIEDE2000 between editions as computed with another program.
  const old = differences("chart24-1976", "chart24-post2014");
  expect(mean(old)).toBeCloseTo(1.43, 2);
  expect(Math.max(...old)).toBeCloseTo(3.15, 2);
  const recent = differences("chart24-pre2014", "chart24-post2014");
  expect(mean(recent)).toBeCloseTo(0.85, 2);
  expect(Math.max(...recent)).toBeCloseTo(1.95, 2);
});

const available = sharedDataAvailable("colour/chart24-1976.json");
const read = (name: string): Table =>
  JSON.parse(readFileSync(sharedData(`colour/${name}.json`), "utf8")) as Table;

function largestGap(ours: readonly Triple[], table: Table): number {
  return Math.max(
    ...ours.flatMap((lab, i) => lab.map((v, c) => Math.abs(v - table.patches[i].Lab_D50[c]))),
  );
}

/** Half a unit of the third decimal, the last one printed, and the rounding error of a double. */
const ROUNDING = 0.0005 + 1e-9;

describe.skipIf(!available)(
  `against the published tables${available ? "" : " (skipped: no shared data)"}`,
  () => {
    test.each(["chart24-post2014", "chart24-pre2014"])("%s", (name) => {
      const patches = cardNamed(name)?.patches ?? [];
      const table = read(name);
      expect(patches.map((patch) => patch.name)).toEqual(table.patches.map((p) => p.name));
      expect(largestGap(patches.map(({ lab }) => lab), table)).toBeLessThan(ROUNDING); // prettier-ignore
    });

    test("chart24-1976, taken from illuminant C to D50 by linear Bradford", () => {
      const table = read("chart24-1976");
      // The table was computed with the other D50 in use, 0.9642 1 0.8249: exact to its rounding under that white ...
      const otherD50: Triple = [0.9642, 1, 0.8249];
      const toD50 = adaptationMatrix(WHITE_C, otherD50);
      const underOther = CHART24_1976_XYY_C.map(([x, y, Y]) =>
        xyzToLab(multiply3Vector(toD50, [(x / y) * Y, Y, ((1 - x - y) / y) * Y]), otherD50),
      );
      expect(largestGap(underOther, table)).toBeLessThan(ROUNDING);
      // ... and under the white of this product at most 0.0065 away (Lab after adaptation hardly depends on the white chosen).
      const ours = cardNamed("chart24-1976")?.patches ?? [];
      expect(largestGap(ours.map(({ lab }) => lab), table)).toBeLessThan(0.008); // prettier-ignore
    });
  },
);
