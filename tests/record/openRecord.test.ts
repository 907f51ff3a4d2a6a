import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { appendEvent } from "../../src/record/appendEvent.ts";
import { describeInput } from "../../src/record/inputs.ts";
import { openRecord, unchangedInput } from "../../src/record/openRecord.ts";
import { OPENED } from "../support/openedEvent.ts";
import { input, newEvent, UNSAID } from "../support/memoryRecord.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";

const root = temporaryFolder();

async function recordOf(name: string, count: number): Promise<string> {
  const folder = join(root, name);
  await appendEvent(folder, OPENED);
  for (let i = 1; i <= count; i++)
    await appendEvent(folder, newEvent("bath", { ...UNSAID, minutes: i }));
  return folder;
}

describe("a record with a hole opens, says so, and gives the rest", () => {
  const event = (folder: string, id: string) => join(folder, "events", `${id}.json`);

  test.each<[string, (folder: string) => void, string, number[]]>([
    [
      "cut short",
      (f) => {
        writeFileSync(event(f, "000003"), "{");
      },
      "it is not whole JSON",
      [1, 3],
    ],
    [
      "lost",
      (f) => {
        rmSync(event(f, "000003"));
      },
      "it is missing",
      [1, 3],
    ],
    [
      "of another id",
      (f) => {
        writeFileSync(event(f, "000003"), readFileSync(event(f, "000002")));
      },
      "it says id 000002",
      [1, 3],
    ],
    [
      "a wrong value",
      (f) => {
        writeFileSync(
          event(f, "000003"),
          readFileSync(event(f, "000003"), "utf8").replace('"minutes": 2', '"minutes": -2'),
        );
      },
      "settings.minutes",
      [1, 3],
    ],
  ])("an event %s", async (name, harm, problem, minutes) => {
    const folder = await recordOf(name.replaceAll(" ", "-"), 3);
    harm(folder);
    const { damaged, treatment, warnings } = await openRecord(folder, "test");
    expect(damaged).toEqual([
      { file: "000003.json", problem: expect.stringContaining(problem) as string },
    ]);
    expect(treatment.baths.map(({ settings }) => settings.minutes)).toEqual(minutes);
    expect(warnings).toEqual([
      {
        code: "event-damaged",
        message: expect.stringMatching(
          /^000003\.json .*gives no go-ahead for another bath/,
        ) as string,
      },
    ]);
  });

  test("a correction that fits nothing is such a hole; the event stays as it was", async () => {
    const folder = await recordOf("unfit", 1);
    await appendEvent(
      folder,
      newEvent("amended", { event: "000002", why: null, withdrawn: false, changes: { later: 1 } }),
    );
    const { damaged, treatment } = await openRecord(folder, "test");
    expect(damaged).toEqual([
      { file: "000003.json", problem: expect.stringContaining('received "later"') as string },
    ]);
    expect(treatment.baths[0].settings.minutes).toBe(1);
  });

  test("the first event lost: there is no record to speak of", async () => {
    const folder = await recordOf("headless", 1);
    rmSync(event(folder, "000001"));
    await expect(openRecord(folder, "test")).rejects.toMatchObject({
      code: "record-damaged",
      message: expect.stringContaining("000001.json, it is missing") as string,
    });
  });
});

describe("inputs", () => {
  test("of events that stand are looked after; a replaced photo may go", async () => {
    const folder = await recordOf("replaced", 0);
    const photo = join(folder, "jar.jpg");
    writeFileSync(photo, "blurred");
    await appendEvent(
      folder,
      newEvent("bath", UNSAID, [await describeInput(folder, "spent", photo)]),
    );
    writeFileSync(photo, "sharp");
    const codes = async () => (await openRecord(folder, "test")).warnings.map(({ code }) => code);
    expect(await codes()).toEqual(["input-changed"]);
    const later = await describeInput(folder, "spent", photo);
    await appendEvent(
      folder,
      newEvent("amended", { event: "000002", why: null, withdrawn: false, changes: {} }, [later]),
    );
    expect(await codes()).toEqual([]);
    rmSync(photo);
    expect(await codes()).toEqual(["input-missing"]);
  });

  test("a file is only given out as it was recorded", async () => {
    const folder = await recordOf("given-out", 0);
    const photo = join(folder, "jar.jpg");
    writeFileSync(photo, "sharp");
    const described = await describeInput(folder, "spent", photo);
    expect(await unchangedInput(folder, described)).toBe(photo);
    writeFileSync(photo, "other");
    await expect(unchangedInput(folder, described)).rejects.toMatchObject({
      code: "unreadable",
      message: expect.stringContaining("found another content") as string,
    });
    await expect(unchangedInput(folder, input("spent", "none.jpg"))).rejects.toThrow(
      "found no such file",
    );
  });
});
