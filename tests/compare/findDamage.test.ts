import { describe, expect, test } from "vitest";
import { findDamage } from "../../src/compare/findDamage.ts";
import type { InkReport, PaperReport } from "../../src/results/compareResult.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import {
  CELL_MM,
  changedSheet,
  distanceFrom,
  type Extra,
  PAPER_LAB,
  PRINT,
} from "../support/changedSheet.ts";
import { compareResult } from "../support/treatmentView.ts";

const sample = compareResult();
const PAPER: PaperReport = {
  ...sample.paper!,
  labBefore: PAPER_LAB,
  labAfter: [80.5, 2.5, 15.5],
  floorDeltaE00: 0.4,
};
const INKS: readonly InkReport[] = PRINT.map(({ id, label, lab }) => ({
  ...sample.inks[0],
  id,
  label,
  kind: id === "black" ? "black" : "ink",
  labBefore: lab,
  labAfter: lab,
  inkPartLow: 0,
}));

function damageOf(
  after: Extra,
  areas: { paper: PaperReport | null; inks: readonly InkReport[] } = { paper: PAPER, inks: INKS },
  mask?: (xMm: number, yMm: number) => boolean,
) {
  const { view, labels, cores } = changedSheet({ after });
  const on = Uint8Array.from(labels, (_, i) => {
    const x = ((i % view.width) + 0.5) * CELL_MM;
    const y = (Math.floor(i / view.width) + 0.5) * CELL_MM;
    return mask === undefined || mask(x, y) ? 1 : 0;
  });
  return findDamage(view, { labels, cores, sheet: { mask: on } }, areas);
}

/** A brown line across the lower margin, 62 mm down. */
const line: Extra = (_, y) => {
  const share = Math.exp(-((y - 62) ** 2));
  return [-2 * share, 0.6 * share, 1.6 * share];
};
const none: Extra = () => [0, 0, 0];
/** Red ink bled 3 mm past the left and right edges of its block, falling off from a third of its strength. */
const red: Extra = (x, y): Triple => {
  const d = distanceFrom("red", x, y);
  const left = d === 0 || y < 20 || y > 40 ? 0 : 0.3 * Math.max(0, 1 - d / 3);
  const [L, A, B] = PRINT[0].lab;
  return [left * (L - PAPER_LAB[0]), left * (A - PAPER_LAB[1]), left * (B - PAPER_LAB[2])];
};

describe("what a washer fears", () => {
  test("nothing on a clean pair", () => {
    const { tideLines, bleeds, dullBlacks } = damageOf(none);
    expect([tideLines, bleeds]).toEqual([[], []]);
    expect(dullBlacks ?? 0).toBe(0);
  });

  test("a tide line and a bleed, each where it is and no more", () => {
    const both: Extra = (x, y) => {
      const [a, b] = [line(x, y), red(x, y)];
      return [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
    };
    const { tideLines, bleeds } = damageOf(both);
    expect(tideLines).toHaveLength(1);
    expect(bleeds.map(({ ink }) => ink)).toEqual(["red", "red"]);
    expect(Object.keys(tideLines[0])).toEqual(["boxPixels", "widthMm", "deltaB"]);
  });

  test("off the sheet nothing is looked at", () => {
    const { tideLines } = damageOf(line, { paper: PAPER, inks: INKS }, (_, y) => y < 58);
    expect(tideLines).toEqual([]);
  });

  test.each<[string, PaperReport | null]>([
    ["no paper", null],
    ["paper that was not measured", { ...PAPER, labAfter: null, floorDeltaE00: null }],
  ])("%s: what needs it is not known (null); a tide line shows all the same", (_, paper) => {
    const { tideLines, unevenCleaning, dullBlacks } = damageOf(line, { paper, inks: INKS });
    expect([unevenCleaning, dullBlacks]).toEqual([null, null]);
    expect(tideLines).toHaveLength(1);
  });

  test("an ink that was not measured is no source of a bleed", () => {
    const inks = INKS.map((ink) => (ink.id === "red" ? { ...ink, labBefore: null } : ink));
    expect(damageOf(red, { paper: PAPER, inks }).bleeds.map(({ ink }) => ink)).not.toContain("red");
  });
});
