import { existsSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { appendEvent } from "../../src/record/appendEvent.ts";
import type { Settings } from "../../src/record/event.ts";
import { OPENED } from "../support/openedEvent.ts";
import { newEvent, UNSAID } from "../support/memoryRecord.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";

const root = temporaryFolder();

describe("an event that is added", () => {
  test("holds what nobody said as null", async () => {
    const folder = join(root, "null");
    await appendEvent(folder, OPENED);
    const { id } = await appendEvent(folder, newEvent("bath", UNSAID));
    const written = JSON.parse(readFileSync(join(folder, "events", `${id}.json`), "utf8")) as {
      settings: unknown;
    };
    expect(written.settings).toEqual(UNSAID);
  });

  test("takes the number after the largest, whatever else lies there", async () => {
    const folder = join(root, "numbers");
    await appendEvent(folder, OPENED);
    for (const name of ["000007.json", "notes.txt", ".x.part", "12.json"])
      writeFileSync(join(folder, "events", name), "");
    expect((await appendEvent(folder, newEvent("bath", UNSAID))).id).toBe("000008");
  });

  test.each<[string, Partial<Settings<"bath">>]>([
    ["ph", { phIn: 85 }],
    ["ph not a number", { phOut: NaN }],
    ["temperature", { temperatureC: 380 }],
    ["volume of nothing", { volumeMl: 0 }],
    ["volume without end", { volumeMl: Infinity }],
    ["time", { minutes: -5 }],
  ])("%s out of range: refused, nothing written", async (name, settings) => {
    const folder = join(root, name.replaceAll(" ", "-"));
    await appendEvent(folder, OPENED);
    await expect(
      appendEvent(folder, newEvent("bath", { ...UNSAID, ...settings })),
    ).rejects.toMatchObject({
      code: "wrong-use",
      input: `settings.${Object.keys(settings)[0]}`,
    });
    expect(readdirSync(join(folder, "events"))).toEqual(["000001.json"]);
  });

  test("a place that can't be written to is told of", async () => {
    mkdirSync(join(root, "blocked"));
    writeFileSync(join(root, "blocked", "events"), "a file");
    await expect(appendEvent(join(root, "blocked"), OPENED)).rejects.toMatchObject({
      code: "output-unwritable",
    });
    expect(existsSync(join(root, "blocked", "events", "000001.json"))).toBe(false);
  });
});
