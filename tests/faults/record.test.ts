import { copyFileSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, test } from "vitest";
import { readRecipe } from "../../cli/readRecipe.ts";
import { appendEvent, type NewEvent } from "../../src/record/appendEvent.ts";
import { openRecord } from "../../src/record/openRecord.ts";
import { readEvents } from "../../src/record/readEvents.ts";
import { repeatConditions } from "../../src/record/repeatConditions.ts";
import { OPENED } from "../support/openedEvent.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";
import { ask, filesBelow, refusalOf } from "./answer.ts";

const folder = temporaryFolder();
const sample = (name: string): string =>
  fileURLToPath(new URL(`../../sample-images/${name}`, import.meta.url));

function bath(minutes: number, at: string): NewEvent<"bath"> {
  const unknown = { composition: null, temperatureC: null, volumeMl: null, phIn: null, phOut: null, agitation: null, foam: null, note: null }; // prettier-ignore
  const settings = { ...unknown, kind: "wash" as const, surfactant: true, minutes, repeated: [], card: null }; // prettier-ignore
  return { ...OPENED, kind: "bath", at, settings };
}

async function recordNamed(name: string): Promise<string> {
  const record = join(folder, name);
  await appendEvent(record, OPENED);
  return record;
}

/** Changes the text of an event's file as only somebody else's program would. */
function rewrite(record: string, id: string, change: (text: string) => string): void {
  const path = join(record, "events", `${id}.json`);
  writeFileSync(path, change(readFileSync(path, "utf8")));
}

describe("clocks and versions", () => {
  test("a clock that goes back, over summer time or by mistake, changes no order", async () => {
    const record = await recordNamed("clock");
    const times = [
      "2026-10-25T02:50:00+02:00",
      "2026-10-25T02:10:00+01:00",
      "2019-01-01T00:00:00Z",
    ];
    for (const [i, at] of times.entries()) await appendEvent(record, bath(i + 1, at));
    const { treatment } = await openRecord(record, "test");
    expect(treatment.baths.map(({ settings }) => settings.minutes)).toEqual([1, 2, 3]);
    // What is repeated is the last bath written, not the one with the latest time.
    const given = { ...bath(1, "").settings, minutes: null };
    expect(repeatConditions(given, treatment.baths).minutes).toBe(3);
  });

  test("an event of a newer version is named and read around; a new event takes a place after it", async () => {
    const record = await recordNamed("newer");
    await appendEvent(record, bath(5, "2026-05-04T10:00:00Z"));
    await appendEvent(record, bath(6, "2026-05-04T11:00:00Z"));
    rewrite(record, "000003", (text) => text.replace('"version": 1', '"version": 2'));
    const newer = filesBelow(record);
    const { status, json } = await ask(["advise", record, "--json"]);
    expect([status, json.baths]).toEqual([0, 1]);
    expect(json.warnings).toContainEqual({
      code: "event-damaged",
      message: expect.stringMatching(/^000003\.json .*newer version \(event format 2, known up to 1\)/) as string, // prettier-ignore
    });
    expect((await appendEvent(record, bath(7, "2026-05-04T12:00:00Z"))).id).toBe("000004");
    expect(filesBelow(record)).toMatchObject(newer);
  });

  test("a record begun by a newer version is refused, and says so", async () => {
    const record = await recordNamed("begun-newer");
    rewrite(record, "000001", (text) => text.replace('"version": 1', '"version": 9'));
    const before = filesBelow(record);
    for (const words of [
      ["advise", record],
      ["step", record, "--what", "x"],
      ["export", record],
    ]) {
      const refused = await refusalOf(words);
      expect(refused).toEqual([3, "record-damaged", expect.stringContaining("newer version")]);
    }
    expect(filesBelow(record)).toEqual(before);
  });

  test("a record of an older program, in the same format, is read; entries it does not know of are left alone", async () => {
    const record = await recordNamed("older");
    rewrite(record, "000001", (text) => text.replace('"program": "test"', '"program": "0.0.1", "later": 1')); // prettier-ignore
    const { events, damaged } = await readEvents(record);
    expect([events[0].program, damaged]).toEqual(["0.0.1", []]);
  });
});

describe("inputs of a record that move or change", () => {
  const record = join(folder, "inputs");
  const photos = join(folder, "photos");
  const photo = (name: string): string => join(photos, name);
  let figures: unknown;

  const assessed = async (): Promise<{ figures: unknown; codes: string[]; text: string }> => {
    const { status, json } = await ask(["advise", record, "--json"]);
    expect(status).toBe(0);
    const { warnings, ...rest } = json as { warnings: { code: string; message: string }[] };
    const text = warnings.map(({ message }) => message).join(" ");
    return { figures: rest, codes: warnings.map(({ code }) => code), text };
  };

  beforeAll(async () => {
    mkdirSync(photos);
    for (const name of ["jar-bath-1.jpg", "jar-blank.jpg", "station.json", "evidence.json"])
      copyFileSync(sample(name), photo(name));
    await ask(["open", record, "--title", "Inputs"]);
    const files = ["--spent", photo("jar-bath-1.jpg"), "--blank", photo("jar-blank.jpg"), "--station", photo("station.json")]; // prettier-ignore
    const conditions = ["--kind", "wash", "--surfactant", "--minutes", "5", "--volume-ml", "500"];
    expect((await ask(["bath", record, ...conditions, ...files])).status).toBe(0);
    ({ figures } = await assessed());
  });

  test("gone or changed: a warning names each, the figures come from the record", async () => {
    const kept = await openRecord(record, "any");
    expect(kept.warnings).toEqual([]);
    rmSync(photo("jar-bath-1.jpg"));
    writeFileSync(photo("jar-blank.jpg"), "something else");
    const now = await assessed();
    expect(now.codes).toEqual(expect.arrayContaining(["input-missing", "input-changed"]));
    expect(now.text).toContain("jar-bath-1.jpg is no longer where it was recorded");
    expect(now.text).toContain("jar-blank.jpg has changed");
    expect(now.figures).toEqual(figures);
  });

  test("gone, and the kept results too: the bath has no figure and says why; the originals back, all is as before", async () => {
    rmSync(join(record, "derived"), { recursive: true, force: true });
    const without = await assessed();
    expect(without.codes).toContain("not-measured");
    copyFileSync(sample("jar-bath-1.jpg"), photo("jar-bath-1.jpg"));
    copyFileSync(sample("jar-blank.jpg"), photo("jar-blank.jpg"));
    const again = await assessed();
    expect([again.codes, again.figures]).toEqual([[], figures]);
  });

  test("one photo that is none does not stand in the way of the next bath", async () => {
    const text = photo("notes.jpg");
    writeFileSync(text, "bath 2, five minutes");
    const none = await refusalOf(["bath", record, "--kind", "wash", "--spent", text, "--blank", text]); // prettier-ignore
    expect(none.slice(0, 2)).toEqual([3, "unsupported-format"]);
    const files = ["--spent", photo("jar-bath-1.jpg"), "--blank", photo("jar-blank.jpg")];
    expect((await ask(["bath", record, "--kind", "wash", ...files, "--json"])).status).toBe(0);
    const { json } = await ask(["advise", record, "--json"]);
    expect(json.baths).toBe(3);
    expect(json.warnings).toContainEqual({
      code: "not-measured",
      message: expect.stringContaining("received a text file") as string,
    });
  });
});

describe("values and files that do not fit", () => {
  test("a text far too long is wrong use, not a fault of the disk, and nothing is recorded", async () => {
    const record = await recordNamed("long");
    await expect(
      appendEvent(record, { ...OPENED, kind: "step", settings: { what: "x".repeat(20_001), area: null, bleed: null } }), // prettier-ignore
    ).rejects.toMatchObject({ code: "wrong-use", input: "settings.what" });
    expect(Object.keys(filesBelow(record))).toEqual([join("events", "000001.json")]);
  });

  const RECIPE = { schema: "lastrinse.recipe", version: 1, volumeMl: 500, temperatureC: 25, limewaterMl: 25, ph: 8.5, surfactantMgPerL: null }; // prettier-ignore

  test.each<[string, string, RegExp]>([
    ["empty", "", /no JSON/],
    ["cut short", JSON.stringify(RECIPE).slice(0, -9), /no JSON/],
    ["another schema", JSON.stringify({ ...RECIPE, schema: "lastrinse.station" }), /schema/],
    ["a newer version", JSON.stringify({ ...RECIPE, version: 2 }), /version/],
    ["a negative volume", JSON.stringify({ ...RECIPE, volumeMl: -500 }), /volumeMl/],
    ["a number as text", JSON.stringify({ ...RECIPE, ph: "8,5" }), /ph/],
    ["a list", "[]", /the top level/],
  ])("a recipe that is %s is bad-json and names the entry", async (name, text, named) => {
    const file = join(folder, `${name}.recipe.json`);
    writeFileSync(file, text);
    await expect(readRecipe(file)).rejects.toMatchObject({ code: "bad-json", input: file });
    await expect(readRecipe(file)).rejects.toThrow(named);
  });

  test("bad files given to commands are refused before anything is recorded or written", async () => {
    const record = await recordNamed("refused-files");
    const bad = join(folder, "bad.json");
    writeFileSync(bad, '{"schema":"lastrinse.');
    const before = filesBelow(record);
    const out = ["--out", join(folder, "never")];
    const spent = [sample("jar-bath-1.jpg"), "--blank", sample("jar-blank.jpg")];
    const pair = [sample("before.png"), sample("after.png")];
    for (const words of [
      ["bath", record, "--kind", "wash", "--surfactant", "--no-photo", "--recipe", bad],
      ["jar", ...spent, "--station", bad, ...out],
      ["jar", ...spent, "--station", sample("station.json"), "--evidence", bad, ...out],
      ["jar", ...spent, "--station", sample("station.json"), "--turbidity-series", bad, ...out],
      ["compare", ...pair, "--inks", bad, ...out],
      ["compare", ...pair, "--card", bad, ...out],
    ])
      expect(await refusalOf(words)).toEqual([3, "bad-json", expect.stringContaining(bad)]);
    expect(filesBelow(record)).toEqual(before);
    expect(Object.keys(filesBelow(folder)).filter((name) => /never.|\.part$/.test(name))).toEqual([]); // prettier-ignore
  });
});
