import { describe, expect, test } from "vitest";
import { chooseCorrection } from "../../src/calibrate/chooseCorrection.ts";
import { lightTerm } from "../../src/calibrate/lightTerm.ts";
import { prepareFloor } from "../../src/calibrate/prepareFloor.ts";
import { toneCurveAt } from "../../src/calibrate/toneCurveAt.ts";
import { ciede2000 } from "../../src/colour/ciede2000.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { measureArea, type MeasuredPair } from "../../src/compare/measureAreas.ts";
import { reportAreas } from "../../src/compare/reportAreas.ts";
import type { Planes } from "../../src/grid/planes.ts";
import { planesToLab } from "../../src/calibrate/planesToLab.ts";
import { differenceMap } from "../../src/change/differenceMap.ts";
import type { Ink, RegionMap } from "../../src/regions/regionMap.ts";
import { REGIONS, SCANNER, simulatedPair } from "../calibrate/simulatedPair.ts";

/** Scanner, magenta gone by a fifth; the frames of a card and what they show of some colours. */
const pair = simulatedPair(SCANNER, { left: [1, 0.8, 1, 1], whitening: 0 }, 1);
const frames = [{ samples: pair.before }, { samples: pair.after }];
const choice = chooseCorrection(frames, pair.card);
const corrections = [choice.frames[0].correction, choice.frames[1].correction] as const;
const floor = prepareFloor(frames, pair.card, choice, { seed: 1 });
const region = (name: string) => {
  const found = pair.regions.find((one) => one.name === name);
  if (found === undefined) throw new RangeError(`${name} of ${REGIONS.map((r) => r.name).join()}`);
  return found;
};
const tone = (frame: 0 | 1, linear: Triple): Triple => [
  toneCurveAt(corrections[frame].curves[0], linear[0]),
  toneCurveAt(corrections[frame].curves[1], linear[1]),
  toneCurveAt(corrections[frame].curves[2], linear[2]),
];

/** Ten columns a colour side by side, forty rows. */
const [BAND, ROWS, STEP] = [10, 40, 4];

function planesOf(frame: 0 | 1, colours: readonly Triple[]): Planes {
  const width = BAND * colours.length;
  const toned = colours.map((colour) => tone(frame, colour));
  const plane = (c: number) =>
    Float32Array.from({ length: width * ROWS }, (_, i) => toned[Math.floor((i % width) / BAND)][c]);
  return {
    width,
    height: ROWS,
    stepX: STEP,
    stepY: STEP,
    channels: [plane(0), plane(1), plane(2)],
  };
}

function pairOf(names: readonly string[]): MeasuredPair {
  const shown = names.map(region);
  const before = planesOf(
    0,
    shown.map((one) => one.before),
  );
  const after = planesOf(
    1,
    shown.map((one) => one.after),
  );
  const labs = [planesToLab(before, corrections[0]), planesToLab(after, corrections[1])] as const;
  const { width, height, stepX, stepY } = before;
  const usable = new Uint8Array(width * height).fill(1);
  return {
    before,
    after,
    corrections,
    difference: differenceMap(labs[0], labs[1], usable),
    floor,
    lightShare: 0.006,
    mmPerCell: 0.17,
    view: { before: labs[0], after: labs[1], width, height, mmPerCell: 0.17, stepX, stepY },
    sigmaMm: new Float32Array(width * height).fill(0.01),
    weights: new Float32Array(width * height).fill(1),
  };
}

function cellsOf(band: number, bands: number, columns = BAND): Int32Array {
  const cells: number[] = [];
  for (let row = 0; row < ROWS; row++)
    for (let k = 0; k < columns; k++) cells.push(row * BAND * bands + band * BAND + k);
  return Int32Array.from(cells);
}

const byChange = pair.regions
  .filter(({ name }) => name !== "paper")
  .sort((a, b) => b.trueDeltaE00 - a.trueDeltaE00);
const FADED = byChange[0].name;
const SAME = byChange[byChange.length - 1].name;

describe("one area", () => {
  const measuredPair = pairOf([FADED, SAME]);

  test("its change is that of the colours it holds, with their floor and interval; its place in full pixels", () => {
    const { report, measured } = measureArea(measuredPair, cellsOf(0, 2), 1.5, 2);
    const truth = region(FADED);
    expect(Math.abs((report.deltaE00 ?? NaN) - truth.trueDeltaE00)).toBeLessThan(
      report.floorDeltaE00 ?? NaN,
    );
    expect(report.deltaE00Low).toBeLessThanOrEqual(truth.trueDeltaE00);
    expect(report.deltaE00High).toBeGreaterThanOrEqual(truth.trueDeltaE00);
    expect([report.areaCm2, report.pixels]).toEqual([1.5, BAND * ROWS * STEP * STEP]);
    expect(report.centroidPixels).toEqual([BAND * 0.5 * STEP - 0.5, ROWS * 0.5 * STEP - 0.5]);
    expect(report.pixelDeltaE00.median).toBeCloseTo(
      ciede2000(measured!.labBefore, measured!.labAfter),
      2,
    );
    expect(report.pixelDeltaE00.p95).toBeCloseTo(report.pixelDeltaE00.median ?? NaN, 5);
    // An even area: nothing but the card, the rounds and the light.
    expect(measured!.sampling).toBeCloseTo(0, 5);
    expect(measured!.light).toBeGreaterThan(lightTerm(measured!.labBefore, 0.006));
  });

  test("more areas judged together, a larger share of light, texture: each raises the floor", () => {
    const cells = cellsOf(0, 2);
    const floorOf = (one: MeasuredPair, count = 1): number =>
      measureArea(one, cells, 1, count).report.floorDeltaE00 ?? NaN;
    const plain = floorOf(measuredPair);
    expect(floorOf(measuredPair, 12)).toBeGreaterThan(plain);
    expect(floorOf({ ...measuredPair, lightShare: 0.02 })).toBeGreaterThan(plain);
    const spotted = planesOf(1, [region(FADED).after, region(SAME).after]);
    for (const plane of spotted.channels)
      for (let i = 0; i < plane.length; i++) plane[i] *= 1 + 0.3 * Math.sin(i * i);
    expect(floorOf({ ...measuredPair, after: spotted })).toBeGreaterThan(plain);
  });

  test("a map that is unsure where the colour slopes raises the floor, and nothing where it is flat", () => {
    const cells = cellsOf(0, 2);
    const termOf = (one: MeasuredPair): number => measureArea(one, cells, 1, 1).measured!.place;
    const unsure = { ...measuredPair, sigmaMm: measuredPair.sigmaMm.map(() => 0.3) };
    // The band's last column touches the other colour.
    const inner = cells.filter((cell) => cell % (2 * BAND) < BAND - 1);
    expect(measureArea(unsure, inner, 1, 1).measured!.place).toBe(0);
    expect(termOf(unsure)).toBeGreaterThan(termOf(measuredPair));
    const { floor: raised } = measureArea(unsure, cells, 1, 1).measured!;
    expect(raised).toBeGreaterThan(measureArea(measuredPair, cells, 1, 1).measured!.floor);
  });

  test("cells that count for little move the mean little", () => {
    const cells = Int32Array.from([...cellsOf(0, 2), ...cellsOf(1, 2)]);
    const weights = Float32Array.from(measuredPair.weights, (_, i) =>
      i % (2 * BAND) < BAND ? 1 : 1e-4,
    );
    const own = measureArea(measuredPair, cellsOf(0, 2), 1, 1).report.deltaE00 ?? NaN;
    expect(measureArea({ ...measuredPair, weights }, cells, 1, 1).report.deltaE00).toBeCloseTo(
      own,
      2,
    );
    expect(measureArea(measuredPair, cells, 1, 1).report.deltaE00).not.toBeCloseTo(own, 1);
  });

  test("eight cells say nothing, nine do", () => {
    const cells = cellsOf(0, 2);
    const few = measureArea(measuredPair, cells.subarray(0, 8), 1, 1);
    expect([few.measured, few.report.deltaE00, few.report.floorDeltaE00]).toEqual([
      null,
      null,
      null,
    ]);
    expect(few.report.areaCm2).toBe(1);
    expect(measureArea(measuredPair, cells.subarray(0, 9), 1, 1).report.deltaE00).not.toBeNull();
  });
});

describe("paper, inks and regions of a pair", () => {
  const PAPER = "paper";

  function mapOf(paper: boolean): RegionMap {
    const width = 3 * BAND;
    const labels = Uint8Array.from({ length: width * ROWS }, (_, i) => {
      const band = Math.floor((i % width) / BAND);
      return band === 2 ? (paper ? 255 : 0) : band + 1;
    });
    const ink = (label: number, id: string): Ink => ({
      label,
      id,
      kind: "ink",
      modeLab: [50, 0, 0],
      cells: BAND * ROWS,
      coreCells: BAND * ROWS,
      areaCm2: 2,
      regions: [
        { id: `${id}-1`, component: label, box: [(label - 1) * BAND, 0, BAND, ROWS], cells: 400, coreCells: 400, areaCm2: 2 }, // prettier-ignore
      ],
    });
    return {
      width,
      height: ROWS,
      labels,
      cores: labels,
      components: Uint16Array.from(labels, (label) => (label === 255 ? 0 : label)),
      inks: [ink(1, "faded"), ink(2, "same")],
      paper: paper
        ? { modeLab: [80, 3, 15], otherLabs: [], cells: 400, coreCells: 400, areaCm2: 3 }
        : null,
      sheet: { mask: new Uint8Array(width * ROWS).fill(1), box: null, bedLab: null, notes: [] },
      mixed: new Uint8Array(width * ROWS),
      sought: paper
        ? { source: "bare", lab: [80, 3, 15], sigmaDeltaE00: 0.1 }
        : { source: "none", lab: null, sigmaDeltaE00: null },
    };
  }
  const measuredPair = pairOf([FADED, SAME, PAPER]);
  const usable = new Uint8Array(3 * BAND * ROWS).fill(1);

  test("the ink that went is called changed or lost with its ink part, the other is not accused, the paper is as it was", () => {
    const { paper, inks } = reportAreas(measuredPair, mapOf(true), usable);
    expect(paper?.verdict).toBe("no-change-shown");
    const [faded, same] = inks;
    expect(["ink-lost", "changed"]).toContain(faded.verdict);
    expect(faded.inkPartDeltaE00).toBeGreaterThan(faded.floorDeltaE00 ?? NaN);
    expect(same.verdict).toBe("no-change-shown");
    expect(same.inkPartLow).toBe(0);
    expect(faded.regions.map(({ id, boxPixels }) => [id, boxPixels])).toEqual([
      ["faded-1", [0, 0, BAND * STEP, ROWS * STEP]],
    ]);
    expect(faded.regions[0].deltaE00).toBeCloseTo(faded.deltaE00 ?? NaN, 9);
    // The sheet fills the frame: nothing lies beyond its edge.
    expect(faded.measuredShare).toBe(1);
  });

  test("without bare paper no part is told to be ink's, and nothing is called lost", () => {
    const { paper, inks } = reportAreas(measuredPair, mapOf(false), usable);
    expect([paper?.source, paper?.labAfter, paper?.deltaE00]).toEqual(["none", null, null]);
    for (const { inkPartDeltaE00, inkPartLow, verdict } of inks) {
      expect([inkPartDeltaE00, inkPartLow]).toEqual([null, null]);
      expect(verdict).not.toBe("ink-lost");
    }
  });

  test("an ink of which nothing is usable is uncertain, not unchanged; its region lies in the middle of its box", () => {
    const half = usable.map((_, i) => (i % (3 * BAND) < BAND ? 0 : 1));
    const [faded] = reportAreas(measuredPair, mapOf(true), half).inks;
    expect([faded.verdict, faded.deltaE00, faded.inkPartDeltaE00, faded.measuredShare]).toEqual([
      "uncertain",
      null,
      null,
      0,
    ]);
    expect(faded.regions[0].centroidPixels).toEqual([(BAND * STEP) / 2, (ROWS * STEP) / 2]);
  });

  test("an ink measured on a part of its area says on which share", () => {
    const part = usable.map((_, i) => (i % (3 * BAND) < 6 ? 0 : 1));
    const [faded, same] = reportAreas(measuredPair, mapOf(true), part).inks;
    expect(faded.measuredShare).toBeCloseTo(0.4, 9);
    expect(same.measuredShare).toBe(1);
    expect(faded.deltaE00).not.toBeNull();
  });

  test("paper of which nothing is usable is uncertain, and no ink is called lost by it", () => {
    const noPaper = usable.map((_, i) => (i % (3 * BAND) < 2 * BAND ? 1 : 0));
    const { paper, inks } = reportAreas(measuredPair, mapOf(true), noPaper);
    expect([paper?.verdict, paper?.deltaB]).toEqual(["uncertain", null]);
    expect(inks.map(({ verdict }) => verdict)).not.toContain("ink-lost");
  });

  test("the simulation has what these tests need", () => {
    expect(SAME).not.toBe(PAPER);
    expect(region(FADED).trueDeltaE00).toBeGreaterThan(2);
    expect(region(SAME).trueDeltaE00).toBe(0);
  });
});
