import { mkdirSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { readBench, recordKey, writeBenchNote } from "../../src/record/bench.ts";
import { newEvent, numbered } from "../support/memoryRecord.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";

const root = temporaryFolder();
const learned = (measuredDeltaE00: number) => [
  {
    day: "2026-05-04",
    inkClass: "red" as const,
    modelDeltaE00: 1,
    measuredDeltaE00,
    noiseDeltaE00: 0.2,
  },
];

describe("the notes of a bench", () => {
  test("a record learns from the others, never from itself; a note made anew replaces its first one", async () => {
    const bench = join(root, "bench");
    await writeBenchNote(bench, "a", "A", learned(1));
    await writeBenchNote(bench, "b", "B", learned(2));
    await writeBenchNote(bench, "b", "B", learned(3));
    const taught = async (key: string) => (await readBench(bench, key)).finished;
    expect(await taught("a")).toEqual(learned(3));
    expect(await taught("c")).toEqual([...learned(1), ...learned(3)]);
    expect(readdirSync(bench)).toHaveLength(2);
  });

  test("other names are left alone; damaged text, newer notes and figures that are none are told of, not passed over", async () => {
    const bench = join(root, "mixed");
    await writeBenchNote(bench, "a", "A", learned(1));
    const note = {
      schema: "lastrinse.bench-note",
      version: 1,
      record: "x",
      title: "",
      inks: learned(9),
    };
    writeFileSync(join(bench, "notes.json"), JSON.stringify(note));
    writeFileSync(join(bench, "cut.bench.json"), JSON.stringify(note).slice(0, -3));
    writeFileSync(join(bench, "newer.bench.json"), JSON.stringify({ ...note, version: 2 }));
    writeFileSync(join(bench, "nan.bench.json"), JSON.stringify({ ...note, inks: learned(NaN) }));
    mkdirSync(join(bench, "folder.bench.json"));
    expect(await readBench(bench, "other")).toEqual({
      finished: learned(1),
      unreadable: ["cut.bench.json", "nan.bench.json", "newer.bench.json"],
      missing: false,
    });
  });

  test("no bench folder yet: nothing learned; one that can't be made is told of", async () => {
    expect(await readBench(join(root, "none"), "a")).toEqual({
      finished: [],
      unreadable: [],
      missing: true,
    });
    writeFileSync(join(root, "file"), "");
    await expect(writeBenchNote(join(root, "file", "bench"), "a", "A", [])).rejects.toMatchObject({
      code: "output-unwritable",
    });
  });

  test("the key tells records apart by their first event alone", () => {
    const [opened] = numbered([]);
    const [same] = numbered([newEvent("step", { what: "x", area: null, bleed: null })]);
    expect(recordKey(same)).toBe(recordKey(opened));
    expect(recordKey({ ...opened, at: "2026-05-04T10:00:01+02:00" })).not.toBe(recordKey(opened));
  });
});
