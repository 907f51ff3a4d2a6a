import { readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, test } from "vitest";
import { pickedInks } from "../../src/compare/pickedInks.ts";
import { plateGrid } from "../../src/compare/plateGrid.ts";
import { platesOfPair } from "../../src/compare/platesOfPair.ts";
import { verdictsByPlates } from "../../src/compare/verdictsByPlates.ts";
import type { Correction } from "../../src/calibrate/correction.ts";
import {
  type CompareResult,
  type PlateReport,
  compareResult,
} from "../../src/results/compareResult.ts";
import { plateTiles } from "../../src/results/plateTiles.ts";
import { jsonOf, runCli } from "../support/runCli.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";
import { compareResult as drawnResult } from "../support/treatmentView.ts";

const folder = temporaryFolder();
const sample = (name: string): string =>
  fileURLToPath(new URL(`../../sample-images/${name}`, import.meta.url));
const PAIR = [
  sample("before.png"),
  sample("after.png"),
  "--before-state",
  "dry",
  "--after-state",
  "dry",
];

describe("the printing inks of the sample pair (by construction red lost 12 %, blue 3, yellow 1, black nothing)", () => {
  const out = join(folder, "plates");
  let result: CompareResult;
  const plate = (id: string): PlateReport => {
    const found = result.plates?.find((one) => one.id === id);
    if (found === undefined) throw new Error(`no plate ${id}`);
    return found;
  };

  beforeAll(async () => {
    result = jsonOf(await runCli(["compare", ...PAIR, "--out", out, "--json"])) as CompareResult;
  });

  test("red is lost, and its interval holds the truth; no other ink is accused", () => {
    expect(plate("red").verdict).toBe("lost");
    // What the method is good to on this pair.
    expect(plate("red").lost).toBeGreaterThanOrEqual(0.08);
    expect(plate("red").lost).toBeLessThanOrEqual(0.17);
    expect(plate("red").low).toBeLessThan(0.12);
    expect(plate("red").high).toBeGreaterThan(0.12);
    for (const id of ["yellow", "blue", "black"]) expect(plate(id).verdict, id).not.toBe("lost");
    expect(plate("yellow").lost).toBeLessThanOrEqual(0.05);
    // Whole per cent, as it is told.
    expect(Math.round(100 * plate("blue").lost)).toBeLessThanOrEqual(5);
    expect(plate("black").lost).toBeLessThanOrEqual(0.08);
  });

  test("only a colour that is the lost ink's own is called lost", () => {
    const lost = result.inks.filter(({ verdict }) => verdict === "ink-lost").map(({ id }) => id);
    expect(lost).toEqual(["red"]);
  });

  test("the places of the worst tile lie on the sheet; nothing is accused of a place without a loss", () => {
    const [x, y, width, height] = plate("red").worst?.boxPixels ?? [NaN, NaN, NaN, NaN];
    expect(x).toBeGreaterThanOrEqual(0);
    expect(y).toBeGreaterThanOrEqual(0);
    expect(x + width).toBeLessThanOrEqual(result.before.widthPixels);
    expect(y + height).toBeLessThanOrEqual(result.before.heightPixels);
    for (const id of ["yellow", "blue", "black"]) expect(plate(id).worst).toBeNull();
  });

  test("files: tiles as their schema says, one row an ink, its line first in the page", () => {
    const tiles = plateTiles.parse(JSON.parse(readFileSync(join(out, "plates.json"), "utf8")));
    expect(Object.keys(tiles.plates)).toEqual(["yellow", "red", "blue", "black"]);
    for (const list of Object.values(tiles.plates))
      expect(list).toHaveLength(tiles.columns * tiles.rows);
    expect(tiles.plates.red.some((value) => value !== null && value > 0)).toBe(true);
    const maps = readFileSync(join(out, "plates.png")).toString("base64");
    const csv = readFileSync(join(out, "plates.csv"), "utf8").split("\r\n");
    expect(csv.filter((line) => line !== "")).toHaveLength(5);
    const page = readFileSync(join(out, "report.html"), "utf8");
    expect(page).toContain(`src="data:image/png;base64,${maps}"`);
    expect(page).toContain("from left to right: yellow, red, blue, black.");
    expect(page.indexOf("red lost ")).toBeGreaterThan(0);
    expect(page.indexOf("red lost ")).toBeLessThan(page.indexOf("Before, after and difference"));
  });

  test("the same again gives the same figures", async () => {
    const again = jsonOf(await runCli(["compare", ...PAIR, "--json"])) as CompareResult;
    expect(again.plates).toEqual(result.plates);
    expect(again.plateModel).toEqual(result.plateModel);
  });

  test("text: one line an ink before the list of colours", async () => {
    const { stdout } = await runCli(["compare", ...PAIR]);
    const lines = stdout.split("\n");
    const red = lines.findIndex((line) => /^red lost \d+ % \(\d+ to \d+ %\)/.test(line));
    expect(red).toBeGreaterThanOrEqual(0);
    expect(red).toBeLessThan(lines.findIndex((line) => line.includes("Lab before")));
    expect(lines.filter((line) => /^(yellow|blue|black):/.test(line))).toHaveLength(3);
  });

  test("not asked for: no plates, and the list works as without them", async () => {
    const plain = jsonOf(
      await runCli(["compare", ...PAIR, "--plates", "none", "--json"]),
    ) as CompareResult;
    expect([plain.plates, plain.plateModel]).toEqual([null, null]);
    expect(plain.inks.filter(({ verdict }) => verdict === "ink-lost").length).toBeGreaterThan(0);
  });
});

const PLANE = (width: number, height: number, value: number) => new Float32Array(width * height).fill(value); // prettier-ignore
const CORRECTION: Correction = {
  model: "3x3",
  curves: [{ kind: "identity" }, { kind: "identity" }, { kind: "identity" }],
  matrix: [0.436, 0.385, 0.143, 0.222, 0.717, 0.061, 0.014, 0.097, 0.714],
  offset: [0, 0, 0],
  plate: null,
};
const planes = (width: number, height: number, value: number) => ({
  width,
  height,
  stepX: 2,
  stepY: 2,
  channels: [PLANE(width, height, value), PLANE(width, height, value), PLANE(width, height, value)] as const, // prettier-ignore
});

describe("cells of 1 mm", () => {
  const [before, after] = [planes(80, 60, 0.5), planes(80, 60, 0.25)];
  const usable = new Uint8Array(80 * 60).fill(1);
  // The first millimetre of the box is not trusted but for one cell of 16.
  for (let row = 8; row < 12; row++) for (let x = 4; x < 8; x++) usable[row * 80 + x] = 0;
  usable[8 * 80 + 4] = 1;
  const grid = plateGrid({
    before,
    after,
    corrections: [CORRECTION, CORRECTION],
    usable,
    box: [4, 8, 40, 24],
    mmPerCell: 0.25,
  });

  test("mean in linear light over trusted places; cells that are mostly untrusted are left out", () => {
    expect([grid.cells.width, grid.cells.height]).toEqual([10, 6]);
    expect(grid.cells.places).toHaveLength(59);
    expect(grid.cells.places[0]).toBe(1);
    // Half the light: ln 1/2 in every band, to the single precision of the planes.
    for (let c = 0; c < 3; c++)
      expect(grid.cells.after[c] - grid.cells.before[c]).toBeCloseTo(Math.log(0.5), 5);
    expect(grid.originPixels).toEqual([7.5, 15.5]);
    expect(grid.pixelsPerMm).toBe(8);
  });

  test("too little print: refused with a warning, and as an error where assumptions are", async () => {
    const found = await platesOfPair(grid, {}, false);
    expect(found.plates).toBeNull();
    expect(found.plateModel?.refused).toBe("too-little-print");
    expect(found.warnings.map(({ code }) => code)).toEqual(["too-little-print"]);
    expect(found.tiles).toBeNull();
    await expect(platesOfPair(grid, {}, true)).rejects.toMatchObject({ code: "too-little-print" });
  });

  test("picked solids: the colour of the place; other names, twice the same and places off the sheet are wrong use", () => {
    const sheet = new Uint8Array(80 * 60).fill(1);
    const pick = (...places: { name: string; x: number; y: number }[]) =>
      pickedInks(places, before, sheet, CORRECTION, 0.25);
    const red = pick({ name: "red", x: 40, y: 40 }).find(({ id }) => id === "red");
    // Half the light of white is L* 76.
    expect(red?.picked?.[0]).toBeCloseTo(76.07, 1);
    expect(() => pick({ name: "green", x: 40, y: 40 })).toThrow(/--solid/);
    expect(() => pick({ name: "red", x: 4, y: 4 }, { name: "red", x: 9, y: 9 })).toThrow(/once/);
    expect(() => pick({ name: "red", x: 4000, y: 4 })).toThrow(/beside/);
  });
});

describe("results of older programs", () => {
  test("parse without the fields of the plates, and their list stays as it was", () => {
    const old = drawnResult();
    expect(compareResult.parse(old)).toEqual(old);
    expect(verdictsByPlates(old.inks, old.paper, null)).toBe(old.inks);
  });
});
