import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { namedInks, placesOfNames } from "../../src/compare/namedInks.ts";
import type { PlateNames } from "../../src/compare/plateNames.ts";
import { readPlateNames } from "../../src/compare/readPlateNames.ts";
import { USUAL_INKS } from "../../src/plates/separatePlates.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";

const folder = temporaryFolder();
const head = { schema: "lastrinse.plate-names", version: 1 } as const;
const written = (plates: unknown): string => {
  const file = join(folder, "names.json");
  writeFileSync(file, JSON.stringify({ ...head, plates }));
  return file;
};

describe("the inks that a press has", () => {
  test("plates that the file does not list are left out; a spot ink has its name and its Lab", async () => {
    const names = await readPlateNames(
      written([{ id: "red", name: "brown", lab: [40, 25, 30] }, { id: "black" }]),
    );
    const inks = namedInks(USUAL_INKS, names);
    expect(inks.map(({ id, name, picked }) => ({ id, name, picked }))).toEqual([
      { id: "red", name: "brown", picked: [40, 25, 30] },
      { id: "black", name: "black", picked: null },
    ]);
  });

  test("places of the file stand beside those given by hand", () => {
    const names: PlateNames = { ...head, plates: [{ id: "blue", name: "green", place: [30, 40] }] };
    expect(placesOfNames(names, [])).toEqual([{ name: "blue", x: 30, y: 40 }]);
    expect(placesOfNames(undefined, [])).toEqual([]);
  });

  test("without a file all four stand as they are", () => {
    expect(namedInks(USUAL_INKS, undefined)).toEqual(USUAL_INKS);
  });

  test("a solid picked of an ink that the press has not: wrong-use", () => {
    const picked = USUAL_INKS.map((ink) => ({ ...ink, picked: [50, 0, 0] as const }));
    expect(() => namedInks(picked, { ...head, plates: [{ id: "red" }] })).toThrow(/list no yellow/);
  });

  test.each([
    [[], "plates"],
    [[{ id: "pink" }], "plates[0].id"],
    [[{ id: "red" }, { id: "red" }], "each plate once"],
    [[{ id: "red", place: [1, 2], lab: [50, 0, 0] }], "not both"],
    [[{ id: "red", lab: [500, 0, 0] }], "plates[0].lab[0]"],
  ])("%j is refused and the place named", async (plates, told) => {
    await expect(readPlateNames(written(plates))).rejects.toMatchObject({
      code: "bad-json",
      message: expect.stringContaining(told) as string,
    });
  });
});
