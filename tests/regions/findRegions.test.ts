import { beforeAll, describe, expect, test } from "vitest";
import type { LastrinseError } from "../../src/errors.ts";
import { sheetView } from "../../src/regions/sheetView.ts";
import { findRegions } from "../../src/regions/findRegions.ts";
import type { InkCorrection } from "../../src/regions/inkCorrections.ts";
import type { RegionMap } from "../../src/regions/regionMap.ts";
import { PAPER_LABEL } from "../../src/regions/regionMap.ts";
import { adjustedRandIndex } from "../support/adjustedRandIndex.ts";
import { LABELLED_COVER, SPECK } from "../support/labelledCover.ts";
import type { LabelPicture } from "../support/labelPicture.ts";
import { labelPicture } from "../support/labelPicture.ts";

const INK_NAMES = Object.keys(LABELLED_COVER.inks);

function ink(map: RegionMap, id: string) {
  const found = map.inks.find((candidate) => candidate.id === id);
  if (found === undefined)
    throw new Error(`no ink ${id} among ${map.inks.map((k) => k.id).join()}`);
  return found;
}

function bytes({ buffer, byteOffset, byteLength }: Uint8Array | Uint16Array | Float32Array) {
  return Buffer.from(buffer, byteOffset, byteLength);
}

let picture: LabelPicture;
let map: RegionMap;
beforeAll(() => {
  picture = labelPicture(LABELLED_COVER);
  map = findRegions(sheetView(picture.image));
});

/** Same picture, the user's steps. */
function corrected(...steps: InkCorrection[]): RegionMap {
  return findRegions(sheetView(picture.image), { corrections: { file: "inks.json", steps } });
}

describe("a cover with margins on a white bed", () => {
  test("labels agree with the truth, and with those of a rescan under new noise (G13: 0.95)", () => {
    const speck = picture.cellAt(...SPECK);
    expect(picture.truth[speck]).toBe(INK_NAMES.indexOf("yellow") + 1);
    expect(adjustedRandIndex(picture.truth, map.labels)).toBeGreaterThan(0.99);
    const rescan = labelPicture({ ...LABELLED_COVER, seed: 2, noise: 1.2 });
    const again = findRegions(sheetView(rescan.image));
    expect(adjustedRandIndex(map.labels, again.labels)).toBeGreaterThan(0.99);
    expect(again.inks.map((k) => k.id)).toEqual(map.inks.map((k) => k.id));
  });

  test("every ink is there, named, largest first, with its colour and area", () => {
    expect(map.inks.map(({ id, kind, label }) => [id, kind, label])).toEqual([
      ["blue", "ink", 1],
      ["yellow", "ink", 2],
      ["red", "ink", 3],
      ["orange", "overprint", 4],
      ["pink", "ink", 5],
      ["green", "overprint", 6],
      ["black", "black", 7],
    ]);
    for (const found of map.inks) {
      const label = INK_NAMES.indexOf(found.id) + 1;
      const cells = picture.truth.filter((t) => t === label).length;
      // The folded speck and half a cell along the outlines.
      expect(Math.abs(found.cells / cells - 1)).toBeLessThan(0.02);
      expect(found.areaCm2).toBeCloseTo((found.cells * 0.254 ** 2) / 100, 9);
      found.modeLab.forEach((value, c) =>
        expect(Math.abs(value - LABELLED_COVER.inks[found.id][c])).toBeLessThan(0.6),
      );
    }
  });

  test("regions are the contiguous areas, with box, cells, core and number", () => {
    const red = ink(map, "red");
    expect(red.regions.map(({ id }) => id)).toEqual(["red-1", "red-2", "red-3"]);
    expect(ink(map, "black").regions).toHaveLength(3);
    const { width, components, cores, labels } = map;
    for (const { regions, label } of map.inks)
      for (const { component, box, cells, coreCells } of regions) {
        let counted = 0;
        let inCore = 0;
        let astray = 0;
        for (let i = 0; i < components.length; i++) {
          if (components[i] !== component) continue;
          counted++;
          if (cores[i] !== 0) inCore++;
          const x = (i % width) - box[0];
          const y = Math.floor(i / width) - box[1];
          if (labels[i] !== label || x < 0 || y < 0 || x >= box[2] || y >= box[3]) astray++;
        }
        expect([cells, coreCells, 0]).toEqual([counted, inCore, astray]);
        expect(cells * 0.254 ** 2).toBeGreaterThanOrEqual(10);
      }
    const seed = picture.cellAt(75, 27);
    const round = red.regions.find(({ component }) => component === map.components[seed]);
    // The disc of 30 mm.
    expect(round?.box[2]).toBeGreaterThanOrEqual(Math.floor(30 / 0.254) - 1);
    expect(round?.box[2]).toBeLessThanOrEqual(Math.ceil(30 / 0.254) + 1);
  });

  test("a speck under 10 mm2 is folded into its surroundings, and kept out of their cores", () => {
    const speck = picture.cellAt(...SPECK);
    const black = ink(map, "black").label;
    expect(map.labels[speck]).toBe(black);
    expect(map.cores[speck]).toBe(0);
    // 1 mm beside its edge.
    expect(map.cores[picture.cellAt(SPECK[0] + 1.25 + 0.8, SPECK[1])]).toBe(0);
    expect(map.cores[picture.cellAt(SPECK[0] + 10, SPECK[1])]).toBe(black);
  });

  test("cores hold one true ink only, at least 0.75 mm inside it (1 mm less a cell)", () => {
    const reach = Math.floor(0.75 / 0.254);
    const { width } = map;
    const truthOf = new Map<number, number>([[PAPER_LABEL, PAPER_LABEL]]);
    for (const { id, label } of map.inks) truthOf.set(label, INK_NAMES.indexOf(id) + 1);
    let impure = 0;
    for (let i = 0; i < map.cores.length; i++) {
      const core = map.cores[i];
      if (core === 0) continue;
      for (let dy = -reach; dy <= reach; dy++)
        for (let dx = -reach; dx <= reach; dx++)
          if (
            dx * dx + dy * dy <= reach * reach &&
            picture.truth[i + dy * width + dx] !== truthOf.get(core)
          )
            impure++;
    }
    expect(impure).toBe(0);
    for (const { cells, coreCells, id } of map.inks)
      if (id !== "black") expect(coreCells).toBeGreaterThan(0.75 * cells);
  });

  test("paper is the margin", () => {
    expect(map.paper?.modeLab.map(Math.round)).toEqual([84, 2, 15]);
    const cells = picture.truth.filter((t) => t === 255).length;
    expect(map.paper!.cells / cells).toBeCloseTo(1, 1);
    expect(map.labels[picture.cellAt(4, 80)]).toBe(PAPER_LABEL);
    expect(map.labels[0]).toBe(0);
  });

  test("same input, same bytes; the input is not changed", () => {
    const before = picture.image.L.slice();
    const again = findRegions(sheetView(picture.image));
    for (const plane of ["labels", "cores", "components"] as const)
      expect(Buffer.compare(bytes(again[plane]), bytes(map[plane]))).toBe(0);
    expect([again.inks, again.paper]).toEqual([map.inks, map.paper]);
    expect(Buffer.compare(bytes(picture.image.L), bytes(before))).toBe(0);
  });
});

test("finer tells more colours apart than coarser", () => {
  const two = labelPicture({
    ...LABELLED_COVER,
    inks: { red: [47, 54, 28], carmine: [43, 47, 17], blue: [42, -8, -32] },
    patches: [
      { ink: "red", box: [10, 10, 50, 100] },
      { ink: "carmine", box: [60, 10, 50, 100] },
      { ink: "blue", box: [10, 115, 100, 30] },
    ],
  });
  const ids = (detail: "coarser" | "normal" | "finer"): string[] =>
    findRegions(sheetView(two.image), { detail }).inks.map((k) => k.id);
  expect(ids("coarser")).toEqual(["red", "blue"]);
  expect(ids("finer")).toEqual(["red", "red-2", "blue"]);
});

test("a pale tint beside much bare paper is an ink, not paper", () => {
  const tinted = labelPicture({
    ...LABELLED_COVER,
    paper: [77, 4, 19.5],
    inks: { sky: [69, 0, 9], red: [50, 46, 24] },
    patches: [
      { ink: "sky", box: [30, 40, 40, 30] },
      { ink: "red", box: [10, 110, 100, 30] },
    ],
  });
  const found = findRegions(sheetView(tinted.image));
  expect(found.inks.map((k) => k.id)).toEqual(["red", "light-blue"]);
  expect(adjustedRandIndex(tinted.truth, found.labels)).toBeGreaterThan(0.98);
});

test("browned edges and soil that fade out are paper", () => {
  const soiled = labelPicture({
    ...LABELLED_COVER,
    stain: (x, y) => {
      const edge = Math.max(0, 1 - Math.min(x, y, 130 - x, 170 - y) / 12);
      const spot = Math.exp(-(((x - 100) / 14) ** 2) - ((y - 150) / 10) ** 2);
      return [-7 * edge - 11 * spot, 1.5 * edge + 3 * spot, 7 * edge + 7 * spot];
    },
  });
  const found = findRegions(sheetView(soiled.image));
  expect(adjustedRandIndex(soiled.truth, found.labels)).toBeGreaterThan(0.97);
  expect(found.labels[soiled.cellAt(100, 150)]).toBe(PAPER_LABEL);
  expect(found.labels[soiled.cellAt(2, 80)]).toBe(PAPER_LABEL);
});

test("art that bleeds on all sides: no paper is named, the inks are", () => {
  const bleeding = labelPicture({
    ...LABELLED_COVER,
    patches: [
      { ink: "blue", box: [0, 0, 130, 80] },
      { ink: "red", box: [0, 80, 130, 50] },
      { ink: "black", box: [0, 130, 130, 40] },
    ],
  });
  const found = findRegions(sheetView(bleeding.image));
  expect(found.paper).toBeNull();
  expect(found.labels.includes(PAPER_LABEL)).toBe(false);
  expect(found.inks.map((k) => k.id)).toEqual(["blue", "red", "black"]);
});

test("bare paper on 6 % of the sheet, on one side only", () => {
  const narrow = labelPicture({
    ...LABELLED_COVER,
    patches: [
      { ink: "blue", box: [0, 0, 122, 80] },
      { ink: "red", box: [0, 80, 122, 50] },
      { ink: "yellow", box: [0, 130, 122, 40] },
    ],
  });
  const found = findRegions(sheetView(narrow.image));
  expect(found.paper?.modeLab.map(Math.round)).toEqual([84, 2, 15]);
  expect(found.paper?.areaCm2).toBeCloseTo(0.8 * 17, 0);
});

test("an empty frame has no inks and no paper", () => {
  const size = 50 * 40;
  const nothing = new Float32Array(size).fill(NaN);
  const image = { ...picture.image, width: 50, height: 40, L: nothing, a: nothing, b: nothing };
  const found = findRegions(sheetView(image));
  expect([found.inks, found.paper, found.sheet.box]).toEqual([[], null, null]);
  expect(found.labels.every((label) => label === 0)).toBe(true);
});

describe("the user's corrections", () => {
  test("rename keeps everything but the name", () => {
    const renamed = corrected({ action: "rename", ink: "red", to: "title red" });
    expect(Buffer.compare(bytes(renamed.labels), bytes(map.labels))).toBe(0);
    expect(ink(renamed, "title red").regions.map(({ id }) => id)).toEqual([
      "title red-1",
      "title red-2",
      "title red-3",
    ]);
    expect(renamed.inks.some(({ id }) => id === "red")).toBe(false);
  });

  test("merge adds up areas and joins touching regions", () => {
    const merged = corrected({ action: "merge", inks: ["pink", "red"], as: "reds" });
    const reds = ink(merged, "reds");
    expect(reds.cells).toBe(ink(map, "pink").cells + ink(map, "red").cells);
    expect(reds.modeLab).toEqual(ink(map, "pink").modeLab);
    // The disc in the pink square and the square are one region now.
    expect(reds.regions).toHaveLength(3);
    expect(merged.inks).toHaveLength(map.inks.length - 1);
    // Areas decide the labels anew.
    expect(merged.inks.map(({ label }) => label)).toEqual(merged.inks.map((_, n) => n + 1));
  });

  test("what is merged with the paper is paper", () => {
    const merged = corrected({ action: "merge", inks: ["pink", "paper"] });
    expect(merged.labels[picture.cellAt(86, 96)]).toBe(PAPER_LABEL);
    expect(merged.paper?.cells).toBe(map.paper!.cells + ink(map, "pink").cells);
  });

  test("split sets apart what lies nearest to the seed's colour, and leaves the other names alone", () => {
    const shaded = labelPicture({
      ...LABELLED_COVER,
      inks: { red: [47, 54, 28], carmine: [44, 49, 20], blue: [42, -8, -32] },
      patches: [
        { ink: "red", box: [10, 10, 50, 100] },
        { ink: "carmine", box: [60, 10, 50, 100] },
        { ink: "blue", box: [10, 115, 100, 30] },
      ],
    });
    const found = findRegions(sheetView(shaded.image));
    expect(found.inks.map((k) => k.id)).toEqual(["red", "blue"]);
    const split = findRegions(sheetView(shaded.image), {
      corrections: {
        file: "inks.json",
        steps: [
          { action: "split", seedPixels: shaded.pixelAt(85, 60), as: "carmine" },
          { action: "rename", ink: "carmine", to: "second red" },
        ],
      },
    });
    expect(split.inks.map((k) => k.id).sort()).toEqual(["blue", "red", "second red"]);
    expect(adjustedRandIndex(shaded.truth, split.labels)).toBeGreaterThan(0.97);
    expect(ink(split, "second red").kind).toBe("ink");
  });

  test("an excluded polygon is not measured", () => {
    const [X0, Y0] = picture.pixelAt(60, 12);
    const [X1, Y1] = picture.pixelAt(90, 42);
    const excluded = corrected({
      action: "exclude",
      polygonPixels: [
        [X0, Y0],
        [X1, Y0],
        [X1, Y1],
        [X0, Y1],
      ],
    });
    expect(excluded.labels[picture.cellAt(75, 27)]).toBe(0);
    expect(ink(excluded, "red").regions).toHaveLength(2);
    expect(ink(excluded, "blue").cells).toBe(ink(map, "blue").cells);
    // Nothing within 1 mm of it is measured either.
    expect(excluded.cores[picture.cellAt(90.8, 30)]).toBe(0);
  });

  test("kind is taken as told", () => {
    expect(ink(corrected({ action: "kind", ink: "orange", kind: "ink" }), "orange").kind).toBe(
      "ink",
    );
  });

  test("steps are replayed in their order", () => {
    const replayed = corrected(
      { action: "rename", ink: "red", to: "crimson" },
      { action: "rename", ink: "pink", to: "red" },
      { action: "merge", inks: ["crimson", "orange"] },
    );
    expect(replayed.inks.map(({ id }) => id).sort()).toEqual([
      "black",
      "blue",
      "crimson",
      "green",
      "red",
      "yellow",
    ]);
  });

  test("a seed beside the sheet is refused, with the place of the sheet", () => {
    expect.assertions(3);
    try {
      corrected({ action: "split", seedPixels: [4, 4], as: "x" });
    } catch (error) {
      const { code, message, remedy } = error as LastrinseError;
      expect(code).toBe("wrong-use");
      expect(message).toMatch(/inks\.json.*4, 4/);
      expect(remedy).toMatch(/inside \d+, \d+ to \d+, \d+/);
    }
  });

  test("errors of the steps come through", () => {
    expect(() => corrected({ action: "rename", ink: "crimson", to: "x" })).toThrow(/"crimson"/);
  });
});
