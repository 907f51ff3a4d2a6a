import { copyFileSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { describeInputs } from "../../cli/inRecord.ts";
import { appendEvent } from "../../src/record/appendEvent.ts";
import { cardHash, cardOf, cardSource } from "../../src/record/cardOf.ts";
import { openRecord } from "../../src/record/openRecord.ts";
import { readBath } from "../../src/record/readBath.ts";
import { OPENED } from "../support/openedEvent.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";

const folder = temporaryFolder();
const here = (name: string): string => join(folder, name);
const record = here("record");
const SHAPE = { jar: "flat" as const, insideMm: 50, passes: 1 as const };

beforeAll(async () => {
  mkdirSync(here("series"));
  for (const name of ["card.txt", "spent.jpg", "blank.jpg"]) writeFileSync(here(name), name);
  copyFileSync(new URL("../../sample-images/station.json", import.meta.url), here("station.json"));
  const points = [0, 5, 10, 20, 40].map((fnu) => ({ file: `${String(fnu)}.jpg`, fnu }));
  for (const { file } of points) writeFileSync(here(join("series", file)), file);
  const series = { schema: "lastrinse.turbidity-series", version: 1, points };
  writeFileSync(here(join("series", "series.json")), JSON.stringify(series));
  await appendEvent(record, { ...OPENED, settings: { ...OPENED.settings, ...SHAPE } });
});

const bathInputs = () =>
  describeInputs(record, {
    spent: here("spent.jpg"),
    blank: here("blank.jpg"),
    station: here("station.json"),
    "turbidity-series": here(join("series", "series.json")),
    card: here("card.txt"),
  });

describe("files a bath depends on are its inputs", () => {
  test("card reference, station, series and every photo of the series, each with its hash; a built-in card is no file", async () => {
    const inputs = await bathInputs();
    expect(inputs.map(({ role, file }) => [role, basename(file)])).toEqual([
      ["spent", "spent.jpg"],
      ["blank", "blank.jpg"],
      ["station", "station.json"],
      ["turbidity-series", "series.json"],
      ["card", "card.txt"],
      ...[0, 5, 10, 20, 40].map((fnu) => ["turbidity-photo", `${String(fnu)}.jpg`]),
    ]);
    expect(new Set(inputs.map(({ sha256 }) => sha256)).size).toBe(inputs.length);
    expect(await describeInputs(record, { card: "chart24-post2014" })).toEqual([]);
  });

  test.each(["card.txt", "station.json", join("series", "series.json"), join("series", "20.jpg")])(
    "%s changed: a warning names it, and nothing is measured with the other content",
    async (name) => {
      const own = here(`record-${basename(name)}`);
      await appendEvent(own, { ...OPENED, settings: { ...OPENED.settings, ...SHAPE } });
      const inputs = await bathInputs();
      await appendEvent(own, {
        kind: "bath",
        at: OPENED.at,
        program: "test",
        inputs: inputs.map((input) => ({ ...input, file: join("..", input.file.split("/").slice(1).join("/")) })), // prettier-ignore
        settings: { kind: "wash", surfactant: true, composition: null, minutes: 5, temperatureC: null, volumeMl: 500, phIn: null, phOut: null, agitation: null, foam: null, note: null, repeated: [], card: here("card.txt") }, // prettier-ignore
      });
      expect((await openRecord(own, "test")).warnings).toEqual([]);
      const before = await describeInputs(own, { file: here(name) });
      const original = readFileSync(here(name));
      writeFileSync(here(name), "something else");
      try {
        const opened = await openRecord(own, "test");
        expect(opened.warnings.map(({ code, message }) => [code, message.split(" ")[0]])).toEqual([
          ["input-changed", before[0].file],
        ]);
        const { reading, refused } = await readBath(opened, opened.treatment.baths[0]);
        expect(reading).toBeNull();
        expect(refused).toMatchObject({
          code: "unreadable",
          message: expect.stringContaining(basename(name)) as string,
        });
      } finally {
        writeFileSync(here(name), original);
      }
    },
  );
});

describe("the card of an event", () => {
  const event = async (card: string | null, recorded: boolean) => ({
    settings: { card },
    inputs: recorded && card !== null ? await describeInputs(record, { card }) : [],
  });

  test("a built-in name is itself; none is none", async () => {
    const named = await event("chart24-post2014", true);
    expect([await cardOf(record, named), await cardSource(named), cardHash(named)]).toEqual([
      "chart24-post2014",
      null,
      undefined,
    ]);
    expect(await cardOf(record, await event(null, false))).toBeUndefined();
  });

  test("a reference file that was recorded is that file, or refused where it changed or is gone", async () => {
    const file = here("own.txt");
    writeFileSync(file, "one");
    const own = await event(file, true);
    expect(await cardOf(record, own)).toBe(file);
    expect(cardHash(own)).toMatch(/^[0-9a-f]{64}$/);
    expect(await cardSource(own)).toBeNull();
    writeFileSync(file, "two");
    await expect(cardOf(record, own)).rejects.toMatchObject({ code: "unreadable" });
    rmSync(file);
    await expect(cardOf(record, own)).rejects.toMatchObject({ code: "unreadable" });
  });

  test("one that an older program did not record counts by its content of now; so does a corrected name", async () => {
    const file = here("old.txt");
    writeFileSync(file, "one");
    const old = await event(file, false);
    expect(await cardOf(record, old)).toBe(file);
    const first = await cardSource(old);
    writeFileSync(file, "two");
    expect(await cardSource(old)).not.toBe(first);
    const corrected = { ...(await event(file, true)), settings: { card: here("card.txt") } };
    expect(await cardOf(record, corrected)).toBe(here("card.txt"));
    expect(await cardSource(corrected)).not.toBeNull();
  });
});
