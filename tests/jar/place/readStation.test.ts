import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { readStation } from "../../../src/jar/place/readStation.ts";

let directory: string;
beforeAll(async () => {
  directory = await mkdtemp(join(tmpdir(), "jar-files-"));
});
afterAll(() => rm(directory, { recursive: true }));

async function written(name: string, content: unknown): Promise<string> {
  const file = join(directory, name);
  await writeFile(file, typeof content === "string" ? content : JSON.stringify(content));
  return file;
}

const refusal = (code: string, message: RegExp): Error =>
  expect.objectContaining({ code, message: expect.stringMatching(message) as string }) as Error;

/** A station file with every entry filled in. */
const STATION = {
  schema: "lastrinse.station",
  version: 1,
  jar: "flat",
  pathCm: 5,
  passes: 1,
  card: {
    name: "chart24-1976",
    cornersPixels: [
      [900, 300],
      [1050, 300],
      [1050, 390],
      [900, 390],
    ],
  },
  liquidBox: [300, 200, 400, 500],
  stripes: {
    wide: { box: [340, 228, 320, 240], periodPixels: 60, firstWhiteY: 228 },
    narrow: { box: [340, 480, 320, 126], periodPixels: 18, firstWhiteY: 480 },
    besideLeft: [60, 228, 180, 240],
    besideRight: [740, 228, 140, 240],
  },
};

describe("station file", () => {
  test("is read as it stands; a byte-order mark is no fault", async () => {
    const { schema: _s, version: _v, ...station } = STATION;
    expect([_s, _v]).toEqual(["lastrinse.station", 1]);
    expect(await readStation(await written("station.json", STATION))).toEqual(station);
    expect(
      await readStation(await written("bom.json", `\uFEFF${JSON.stringify(STATION)}`)),
    ).toEqual(station);
  });

  test("card and narrow stripes may be missing", async () => {
    const { narrow: _narrow, ...stripes } = STATION.stripes;
    const { card: _card, ...rest } = STATION;
    expect(_narrow && _card).toBeTruthy();
    const station = await readStation(await written("short.json", { ...rest, stripes }));
    expect(station.card).toBeNull();
    expect(station.stripes.narrow).toBeNull();
  });

  test.each([
    ["no JSON", "{", /text that is no JSON/],
    ["another schema", { ...STATION, schema: "something" }, /schema/],
    ["another version", { ...STATION, version: 2 }, /version/],
    ["a jar of another kind", { ...STATION, jar: "square" }, /jar/],
    ["three passes", { ...STATION, passes: 3 }, /passes/],
    ["no path", { ...STATION, pathCm: 0 }, /pathCm/],
    ["a flat box", { ...STATION, liquidBox: [0, 0, 10] }, /liquidBox/],
    [
      "an empty side box",
      { ...STATION, stripes: { ...STATION.stripes, besideLeft: [0, 0, 0, 10] } },
      /stripes\.besideLeft/,
    ],
  ])("%s is refused by its path", async (name, content, message) => {
    const file = await written(`${name}.json`, content);
    await expect(readStation(file)).rejects.toThrow(refusal("bad-json", message));
  });

  test("a file that is not there is unreadable", async () => {
    await expect(readStation(join(directory, "none.json"))).rejects.toThrow(
      refusal("unreadable", /none\.json/),
    );
  });
});
