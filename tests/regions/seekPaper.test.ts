import { describe, expect, test } from "vitest";
import { paperWarnings } from "../../src/compare/paperWarnings.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { findRegions } from "../../src/regions/findRegions.ts";
import { parsePaper } from "../../src/regions/parsePaper.ts";
import { sheetView } from "../../src/regions/sheetView.ts";
import { ciede2000 } from "../../src/colour/ciede2000.ts";
import { painterlyCover, type PainterlyOptions } from "../support/painterlyCover.ts";

const CREAM: Triple = [88, 1.5, 12];
const BROWN: Triple = [78, 4, 19];

describe("the paper of painted covers in four screens", () => {
  const cases: readonly (readonly [string, Omit<PainterlyOptions, "seed" | "paper">, boolean])[] = [
    ["a margin of 6 mm", { marginMm: 6 }, true],
    ["a margin of 2 mm", { marginMm: 2 }, true],
    ["art to the edge, one place of 0.2 % left bare", { marginMm: 0, bareShare: 0.002 }, true],
    [
      "a trimmed edge of 1.5 mm round tinted art",
      { marginMm: 0, leastTint: [0.2, 0.05], rimMm: 1.5 },
      true,
    ],
    ["nothing bare", { marginMm: 0 }, false],
    ["nothing bare, a tint all over", { marginMm: 0, leastTint: [0.2, 0.05] }, false],
  ];
  test.each(cases)("%s: L* within 2 of the truth, or said not to be known", (_, options, bare) => {
    [CREAM, BROWN].forEach((paper, n) => {
      const { image } = painterlyCover({ ...options, paper, seed: 31 + n });
      const found = findRegions(sheetView(image));
      const measured = found.paper !== null && found.paper.coreCells > 0;
      const codes = paperWarnings(measured, found.sought).map(({ code }) => code);
      if (bare) {
        expect(found.sought.source).toMatch(/^(bare|edge)$/);
        expect(Math.abs((found.sought.lab?.[0] ?? NaN) - paper[0])).toBeLessThan(2);
        if (measured) expect(Math.abs((found.paper?.modeLab[0] ?? NaN) - paper[0])).toBeLessThan(2);
        else expect(codes).toContain("no-paper");
      } else {
        expect(found.sought.source).toMatch(/^(estimated|none)$/);
        expect(found.paper).toBeNull();
        expect(codes).toContain("no-paper");
      }
    });
  });
});

test("a patch given by hand is the paper, though the art shows none by itself", () => {
  const cover = painterlyCover({
    seed: 41,
    paper: BROWN,
    marginMm: 0,
    leastTint: [0.15, 0.05],
    bareShare: 0.004,
  });
  const [x, y] = cover.patchPixels;
  const found = findRegions(sheetView(cover.image), {
    paper: { source: "given", boxPixels: [x - 20, y - 20, 40, 40] },
  });
  expect(found.sought.source).toBe("given");
  expect(ciede2000(found.paper?.modeLab ?? [0, 0, 0], BROWN)).toBeLessThan(1);
  expect(found.paper?.coreCells).toBeGreaterThan(20);
  expect(() =>
    findRegions(sheetView(cover.image), {
      paper: { source: "given", boxPixels: [-500, -500, 10, 10] },
    }),
  ).toThrow(/patch of bare paper/);
});

describe("--paper", () => {
  test("takes a patch or a colour", () => {
    expect(parsePaper("10,20,30,40")).toEqual({ source: "given", boxPixels: [10, 20, 30, 40] });
    expect(parsePaper("78,4,19.5")).toEqual({ source: "given", lab: [78, 4, 19.5] });
  });
  test.each(["", "1,2", "a,b,c", "10,10,0,5", "178,0,0", "1,2,3,4,5", "78, ,3"])(
    "refuses %j",
    (text) => {
      expect(() => parsePaper(text)).toThrow(/--paper/);
    },
  );
});
