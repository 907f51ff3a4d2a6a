import { mkdirSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { LastrinseError } from "../../src/errors.ts";
import { appendEvent, type NewEvent } from "../../src/record/appendEvent.ts";
import { currentEvents } from "../../src/record/currentEvents.ts";
import { describeInput, inputCondition } from "../../src/record/inputs.ts";
import { readEvents } from "../../src/record/readEvents.ts";
import { OPENED } from "../support/openedEvent.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";

const root = temporaryFolder();
const AT = "2026-05-04T10:00:00+02:00";

function step(what: string): NewEvent<"step"> {
  return {
    kind: "step",
    at: AT,
    program: "0.0.0-test",
    inputs: [],
    settings: { what, area: null, bleed: null },
  };
}

async function recordNamed(name: string): Promise<string> {
  const folder = join(root, name);
  await appendEvent(folder, OPENED);
  return folder;
}

describe("events of a record", () => {
  test("come back in order, as written", async () => {
    const folder = await recordNamed("order");
    for (const what of ["a", "b", "c"]) await appendEvent(folder, step(what));
    const { events, damaged } = await readEvents(folder);
    expect(damaged).toEqual([]);
    expect(events.map((event) => event.id)).toEqual(["000001", "000002", "000003", "000004"]);
    expect(events.slice(1).map((e) => (e.kind === "step" ? e.settings.what : e.kind))).toEqual([
      "a",
      "b",
      "c",
    ]);
  });

  test("twenty writers at once lose nothing and share no id", async () => {
    const folder = await recordNamed("writers");
    const written = await Promise.all(
      Array.from({ length: 20 }, (_, i) => appendEvent(folder, step(`writer ${String(i)}`))),
    );
    expect(new Set(written.map((event) => event.id)).size).toBe(20);
    const { events } = await readEvents(folder);
    expect(events).toHaveLength(21);
    expect(readdirSync(join(folder, "events")).filter((n) => n.endsWith(".part"))).toEqual([]);
  });

  test("a damaged event is named and the rest serves", async () => {
    const folder = await recordNamed("damaged");
    await appendEvent(folder, step("kept"));
    await appendEvent(folder, step("lost"));
    await appendEvent(folder, step("kept too"));
    const file = join(folder, "events", "000003.json");
    writeFileSync(file, readFileSync(file, "utf8").slice(0, 90));
    const { events, damaged } = await readEvents(folder);
    expect(events).toHaveLength(3);
    expect(damaged).toEqual([{ file: "000003.json", problem: "it is not whole JSON" }]);
  });

  test("an event of a newer version is named as such, not read", async () => {
    const folder = await recordNamed("newer");
    await appendEvent(folder, step("from the future"));
    const file = join(folder, "events", "000002.json");
    writeFileSync(file, readFileSync(file, "utf8").replace('"version": 1', '"version": 9'));
    const { damaged } = await readEvents(folder);
    expect(damaged[0].problem).toContain("newer version");
  });

  test("a record that is none, or has lost its first event, is refused by code", async () => {
    const empty = join(root, "empty");
    mkdirSync(empty);
    await expect(readEvents(empty)).rejects.toMatchObject({ code: "record-missing" });
    const folder = await recordNamed("headless");
    writeFileSync(join(folder, "events", "000001.json"), "");
    await expect(readEvents(folder)).rejects.toMatchObject({ code: "record-damaged" });
  });
});

describe("corrections", () => {
  const amendment = (
    event: string,
    changes: Record<string, unknown>,
    withdrawn = false,
  ): NewEvent<"amended"> => ({
    kind: "amended",
    at: AT,
    program: "0.0.0-test",
    inputs: [],
    settings: { event, why: null, withdrawn, changes },
  });

  test("supersede without touching the event's file", async () => {
    const folder = await recordNamed("amended");
    await appendEvent(folder, step("swabed"));
    const before = readFileSync(join(folder, "events", "000002.json"));
    await appendEvent(folder, amendment("000002", { what: "swabbed" }));
    const { events } = await readEvents(folder);
    expect(currentEvents(events)[1]).toMatchObject({ id: "000002", settings: { what: "swabbed" } });
    expect(readFileSync(join(folder, "events", "000002.json")).equals(before)).toBe(true);
  });

  test("a withdrawn event is gone from the present, not from the record", async () => {
    const folder = await recordNamed("withdrawn");
    await appendEvent(folder, step("never happened"));
    await appendEvent(folder, amendment("000002", {}, true));
    const { events } = await readEvents(folder);
    expect(events).toHaveLength(3);
    expect(currentEvents(events).map((event) => event.kind)).toEqual(["opened"]);
  });

  test("a setting that does not exist, or does not fit, is refused", async () => {
    const folder = await recordNamed("misfit");
    await appendEvent(folder, step("x"));
    await appendEvent(folder, amendment("000002", { wat: 1 }));
    const { events } = await readEvents(folder);
    expect(() => currentEvents(events)).toThrow(LastrinseError);
    expect(() => currentEvents(events)).toThrow(/wat/);
  });
});

describe("inputs", () => {
  test("are described, and a change or a loss is seen", async () => {
    const folder = await recordNamed("inputs");
    const photo = join(folder, "jar.jpg");
    writeFileSync(photo, "not really a photo");
    const input = await describeInput(folder, "spent", photo);
    expect(input).toMatchObject({ role: "spent", file: "jar.jpg", bytes: 18 });
    expect(await inputCondition(folder, input)).toBe("unchanged");
    writeFileSync(photo, "not really a phato");
    expect(await inputCondition(folder, input)).toBe("changed");
    expect(await inputCondition(folder, { ...input, file: "gone.jpg" })).toBe("missing");
  });

  test("a missing file is refused with its name", async () => {
    await expect(describeInput(root, "spent", join(root, "none.jpg"))).rejects.toMatchObject({
      code: "unreadable",
      input: join(root, "none.jpg"),
    });
  });
});
