import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { describeInput } from "../../src/record/inputs.ts";
import { knownPrint, scanSources, sideRequest, surveyOf } from "../../src/record/surveyOf.ts";
import type { ScanEvent } from "../../src/record/treatment.ts";
import { input, memoryRecord, newEvent, SCANNED } from "../support/memoryRecord.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";

const folder = temporaryFolder();
const scanOf = (more: Partial<ScanEvent> = {}): ScanEvent => ({
  id: "000002",
  at: "",
  order: 2,
  inputs: [input("scan", "a.png")],
  settings: SCANNED,
  ...more,
});

describe("what the figures of a scan depend on", () => {
  const sources = async (scan: ScanEvent, program = "1") =>
    JSON.stringify(await scanSources(scan, program));

  test.each<[string, ScanEvent, string?]>([
    ["another scan", scanOf({ inputs: [input("scan", "b.png")] })],
    ["a card scan", scanOf({ inputs: [input("scan", "a.png"), input("card-scan", "c.png")] })],
    ["another card", scanOf({ settings: { ...SCANNED, card: "strip" } })],
    ["another page", scanOf({ settings: { ...SCANNED, page: 2 } })],
    ["another program", scanOf(), "2"],
  ])("%s makes them anew", async (_, scan, program) => {
    expect(await sources(scan, program)).not.toBe(await sources(scanOf()));
  });

  test("the file's place does not", async () => {
    const moved = scanOf({ inputs: [{ ...input("scan", "a.png"), file: "scans/a.png" }] });
    expect(await sources(moved)).toBe(await sources(scanOf()));
  });
});

describe("a scan as a request", () => {
  test("holds what was stated, and leaves out what was not", async () => {
    const file = join(folder, "a.png");
    writeFileSync(file, "x");
    const inputs = [await describeInput(folder, "scan", file)];
    expect(await sideRequest(folder, scanOf({ inputs }))).toEqual({
      file,
      page: undefined,
      corners: undefined,
      cardScan: undefined,
      state: "dry",
    });
    const corners: NonNullable<ScanEvent["settings"]["corners"]> = [
      [0, 0],
      [9, 0],
      [9, 9],
      [0, 9],
    ];
    expect(
      await sideRequest(
        folder,
        scanOf({ inputs, settings: { ...SCANNED, page: 2, corners, state: "damp" } }),
      ),
    ).toMatchObject({ page: 2, corners, state: "damp" });
  });

  test("a scan that changed is refused, an event without one is a defect", async () => {
    writeFileSync(join(folder, "changed.png"), "other");
    await expect(
      sideRequest(folder, scanOf({ inputs: [input("scan", "changed.png")] })),
    ).rejects.toMatchObject({ code: "unreadable" });
    await expect(sideRequest(folder, scanOf({ inputs: [] }))).rejects.toThrow(RangeError);
  });
});

test("inks that were kept are given without the scan; without either it is refused", async () => {
  const kept = { paperLab: null, inks: [], warnings: [] };
  const events = [newEvent("before", SCANNED, [input("scan", "none.png")])];
  expect(await surveyOf(memoryRecord(events, { "000002-survey": kept }), scanOf())).toEqual(kept);
  await expect(surveyOf(memoryRecord(events), scanOf())).rejects.toMatchObject({
    code: "unreadable",
  });
});

describe("what a before scan was told of its print", () => {
  const plain = { schema: "lastrinse.inks", version: 1, corrections: [{ action: "rename", ink: "red-2", to: "flag red" }] }; // prettier-ignore
  const press = { schema: "lastrinse.plate-names", version: 1, plates: [{ id: "red" }] };
  const fileOf = (name: string, content: unknown) => {
    const file = join(folder, name);
    writeFileSync(file, JSON.stringify(content));
    return file;
  };

  test("nothing said is nothing known, as with a record of before", async () => {
    expect(Object.values(await knownPrint(folder, scanOf())).filter((one) => one !== undefined)) // prettier-ignore
      .toEqual([]);
  });

  test("words and files of the event are what the comparison gets", async () => {
    const inputs = await Promise.all([
      describeInput(folder, "inks", fileOf("inks.json", plain)),
      describeInput(folder, "plate-names", fileOf("press.json", press)),
    ]);
    const settings = {
      ...SCANNED,
      paper: "10,20,30,40",
      plates: "auto" as const,
      solids: [{ name: "red", x: 5, y: 6 }],
    };
    const known = await knownPrint(folder, scanOf({ inputs, settings }));
    expect(known).toMatchObject({
      paper: { source: "given", boxPixels: [10, 20, 30, 40] },
      plates: "auto",
      solids: [{ name: "red", x: 5, y: 6 }],
      inks: { steps: plain.corrections },
    });
    expect(JSON.stringify(known.plateNames)).toContain('"red"');
  });

  test("a file that changed since is refused, not read anew", async () => {
    const inputs = [await describeInput(folder, "plate-names", fileOf("later.json", press))];
    fileOf("later.json", { ...press, plates: [{ id: "blue" }, { id: "red" }] });
    await expect(knownPrint(folder, scanOf({ inputs }))).rejects.toMatchObject({
      input: expect.stringContaining("later.json") as string,
    });
  });

  test("what it was told belongs to what its figures depend on", async () => {
    const told = async (settings: Partial<typeof SCANNED>) =>
      JSON.stringify(await scanSources(scanOf({ settings: { ...SCANNED, ...settings } }), "1"));
    const plates = { plates: "none" as const };
    expect(await told(plates)).not.toBe(await told({}));
  });
});
