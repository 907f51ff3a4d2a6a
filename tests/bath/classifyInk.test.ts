import { describe, expect, test } from "vitest";
import type { Colourant } from "../../calibration/colourants.ts";
import { classifyInk } from "../../src/bath/classifyInk.ts";
import { fitPaper } from "../../src/print/fitPaper.ts";
import { colourantSpectrum } from "../../src/print/spectra.ts";
import { sheetLab } from "../../src/print/twoLayerSheet.ts";
import type { Triple } from "../../src/numeric/triple.ts";

const PAPERS: readonly Triple[] = [
  [78, 3, 19],
  [88, 1, 10],
  [70, 7, 26],
];

/** Colour of a print made of these densities, by the two-layer model. */
function printed(paper: Triple, parts: Partial<Record<Colourant, number>>): Triple {
  return sheetLab(
    fitPaper(paper),
    Object.entries(parts).map(([colourant, density]) => ({
      spectrum: colourantSpectrum(colourant as Colourant),
      density,
    })),
  );
}

describe("class of an ink, from a pale tint to a heavy solid on three papers", () => {
  test.each([
    ["red", { red: 1 }],
    ["pink", { pink: 1 }],
    ["blue", { blue: 1 }],
    ["violet", { violet: 1 }],
    ["yellow", { yellow: 1 }],
    ["orange", { red: 0.5, yellow: 0.5 }],
    ["green", { blue: 0.5, yellow: 0.5 }],
    ["black", { carbon: 1 }],
  ] as const)("%s", (inkClass, parts) => {
    for (const paper of PAPERS)
      for (const density of [0.15, 0.4, 1]) {
        const scaled = Object.fromEntries(
          Object.entries(parts).map(([name, share]) => [name, share * density]),
        );
        expect(classifyInk(printed(paper, scaled), paper).inkClass).toBe(inkClass);
      }
  });

  test("brown is red, yellow and black together", () => {
    const lab = printed(PAPERS[0], { red: 0.5, yellow: 0.5, carbon: 0.4 });
    const { inkClass, colourants } = classifyInk(lab, PAPERS[0]);
    expect(inkClass).toBe("brown");
    expect(colourants).toEqual(["red", "yellow", "carbon"]);
  });

  test("the colour of the paper itself says nothing: everything stays possible", () => {
    expect(classifyInk(PAPERS[0], PAPERS[0]).inkClass).toBe("unknown");
    expect(classifyInk(PAPERS[0], PAPERS[0]).colourants).toHaveLength(6);
    expect(classifyInk([NaN, 0, 0], PAPERS[0]).inkClass).toBe("unknown");
  });

  test("near an edge the neighbour's colourants stay possible; a violet may be blue with pink", () => {
    const violet = classifyInk(printed(PAPERS[0], { violet: 0.5 }), PAPERS[0]);
    expect(violet.alternatives).toEqual(expect.arrayContaining(["blue", "pink"]));
    const middle = classifyInk(printed(PAPERS[0], { yellow: 0.5 }), PAPERS[0]);
    expect(middle.alternatives).toEqual([]);
  });
});
