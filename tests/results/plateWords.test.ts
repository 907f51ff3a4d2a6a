import { expect, test } from "vitest";
import type { PlateReport } from "../../src/results/compareResult.ts";
import { plateSentence } from "../../src/results/plateWords.ts";

const plate = (more: Partial<PlateReport>): PlateReport => ({
  id: "red",
  name: "red",
  solidLab: [45, 51, 25],
  source: "usual",
  meanCoverage: [0.1, 0.2],
  lost: 0.09,
  low: 0.034,
  high: 0.145,
  verdict: "lost",
  deltaE00: [0.5, 0.6],
  worst: null,
  tiles: { file: "plates.json", cellMm: 20 },
  ...more,
});

test("each verdict in words; bounds are rounded outwards", () => {
  expect(plateSentence(plate({}))).toBe("red lost 9 % (3 to 15 %)");
  const worst = { place: "top left", boxPixels: [0, 0, 9, 9] as const, lost: 0.14, low: 0.1, high: 0.2 }; // prettier-ignore
  expect(plateSentence(plate({ worst }))).toBe("red lost 9 % (3 to 15 %), worst at top left 14 %");
  const blue = { id: "blue", name: "blue", low: 0 };
  expect(plateSentence(plate({ ...blue, verdict: "none-shown", high: 0.031 }))).toBe(
    "blue: nothing shown, below 4 %",
  );
  expect(plateSentence(plate({ ...blue, verdict: "uncertain", high: 0.23 }))).toBe(
    "blue: not certain, 0 to 23 %",
  );
  expect(plateSentence(plate({ ...blue, verdict: "absent" }))).toMatch(/not printed/);
  // Not known is not none.
  expect(plateSentence(plate({ id: "black", name: "black", verdict: "uncertain" }))).toMatch(
    /not known, which does not mean none/,
  );
});
