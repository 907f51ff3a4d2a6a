import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import type { BlotTest } from "../../src/advice/treatmentState.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { evidenceOfRecord } from "../../src/record/evidenceOfRecord.ts";
import { describeInput } from "../../src/record/inputs.ts";
import { statedConditions } from "../../src/record/statedConditions.ts";
import { memoryRecord, newEvent, UNSAID } from "../support/memoryRecord.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";

const folder = temporaryFolder();
const PAPER: Triple = [78, 3, 19];
const RED = { id: "red", lab: [50, 50, 30] as Triple, areaCm2: 90, kind: "ink" as const };
const scanned = { inks: [RED], paperLab: PAPER };
const liquid = { surfactant: null, ph: null, temperatureC: null, minutes: null };
const tested = (...results: BlotTest["result"][]) =>
  new Map([["red", results.map((result, order) => ({ result, liquid, order }))]]);

describe("conditions of the baths", () => {
  test("pass as they were stated: unknown is null, never none, never 0", () => {
    const { treatment } = memoryRecord([
      newEvent("bath", UNSAID),
      newEvent("bath", {
        ...UNSAID,
        kind: "rinse",
        surfactant: false,
        minutes: 5,
        temperatureC: 38,
        phIn: 8.5,
        volumeMl: 500,
      }),
    ]);
    expect(statedConditions(treatment.baths)).toEqual([
      {
        kind: "wash",
        surfactant: null,
        minutes: null,
        temperatureC: null,
        ph: null,
        volumeMl: null,
        settled: false,
      },
      {
        kind: "rinse",
        surfactant: false,
        minutes: 5,
        temperatureC: 38,
        ph: 8.5,
        volumeMl: 500,
        settled: false,
      },
    ]);
  });
});

describe("evidence of a record", () => {
  test.each<[string, (number | null)[], number | null]>([
    ["no bath yet", [], null],
    ["no volume stated", [null, null], null],
    ["one stated: the other one's stays unknown", [null, 500], 500],
    ["the first of two is the reference", [400, 500], 400],
  ])("%s", async (_, volumes, reference) => {
    const record = memoryRecord(
      volumes.map((volumeMl) => newEvent("bath", { ...UNSAID, volumeMl })),
    );
    const evidence = await evidenceOfRecord(record, scanned, new Map());
    expect(evidence?.bathVolumeMl).toBe(reference);
    expect(evidence?.baths.map(({ volumeMl }) => volumeMl)).toEqual(volumes);
  });

  test("the last test's result counts; an ink without a test is untested", async () => {
    const record = memoryRecord([]);
    const blot = async (tests: Map<string, BlotTest[]>) =>
      (await evidenceOfRecord(record, scanned, tests))?.inks[0].blot;
    expect(await blot(tested("fast", "bleeds"))).toBe("bleeds");
    expect(await blot(new Map())).toBe("untested");
  });

  test("an evidence file replaces inks and paper, with or without a scan; baths and limits stay the record's", async () => {
    const file = join(folder, "evidence.json");
    writeFileSync(
      file,
      JSON.stringify({
        schema: "lastrinse.evidence",
        version: 1,
        bathVolumeMl: 600,
        wetSheetMl: 12,
        paper: { lab: [70, 2, 15] },
        inks: [{ id: "blue", lab: [45, -10, -30], areaCm2: 40, blot: "fast" }],
        limits: { maxDeltaE00: 50 },
      }),
    );
    const record = memoryRecord([
      newEvent("bath", { ...UNSAID, volumeMl: 500 }, [
        await describeInput("/nowhere", "evidence", file),
      ]),
      newEvent("bath", UNSAID),
    ]);
    for (const scan of [scanned, null]) {
      const evidence = await evidenceOfRecord(record, scan, new Map());
      expect(evidence).toMatchObject({
        wetSheetMl: 12,
        paperLab: [70, 2, 15],
        inks: [{ id: "blue" }],
      });
      expect(evidence?.limits.maxDeltaE00).toBe(2);
      // The file states a volume for the baths: a bath that states none has that one.
      expect(evidence?.baths.map(({ volumeMl }) => volumeMl)).toEqual([500, 600]);
    }
  });

  test("neither scan nor file: no evidence", async () => {
    expect(
      await evidenceOfRecord(memoryRecord([newEvent("bath", UNSAID)]), null, new Map()),
    ).toBeNull();
  });
});
