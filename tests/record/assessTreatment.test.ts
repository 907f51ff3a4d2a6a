import { mkdtempSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { describeInput } from "../../src/record/inputs.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";
import type { NewEvent } from "../../src/record/appendEvent.ts";
import { assessTreatment } from "../../src/record/assessTreatment.ts";
import type { EventKind, Settings } from "../../src/record/event.ts";
import { input, memoryRecord, newEvent, SCANNED, TESTED, UNSAID } from "../support/memoryRecord.ts";

const folder = temporaryFolder();
const LIQUID = { surfactant: true, ph: 8.5, temperatureC: 38, minutes: 5 };
const FAST = newEvent("blot", { ...TESTED, ...LIQUID });
const KNOWN = { minutes: 5, temperatureC: 38, phIn: 8.5, volumeMl: 500 };
const bath = (settings: Partial<Settings<"bath">>) =>
  newEvent("bath", { ...UNSAID, ...KNOWN, ...settings });

const SURVEY = {
  paperLab: [78, 3, 19],
  inks: [{ id: "red", kind: "ink", lab: [50, 50, 30], areaCm2: 90 }],
  warnings: [],
};
/** A limit that no fast ink reaches in one bath. */
const WIDE = newEvent("amended", {
  event: "000001",
  why: null,
  withdrawn: false,
  changes: { limits: { maxDeltaE00: 40, risk: 0.1, minGain: 0.1 } },
});

const adviceOf = async (
  events: readonly NewEvent<EventKind>[],
  damaged: readonly string[] = [],
) => {
  const record = memoryRecord(events, { "000002-survey": SURVEY });
  const open = {
    ...record,
    damaged: damaged.map((file) => ({ file, problem: "it is not whole JSON" })),
  };
  return (await assessTreatment(open)).assessment.advice;
};

describe("what was stated counts without a scan and without a photo", () => {
  test.each<[string, Partial<Settings<"bath">>, boolean]>([
    ["a wash with surfactant", { surfactant: true }, true],
    ["a wash of which nobody said it", { surfactant: null }, true],
    ["a wash without surfactant", { surfactant: false }, false],
    ["a plain rinse", { kind: "rinse", surfactant: false }, false],
    ["a rinse of which nobody said it is plain", { kind: "rinse", surfactant: null }, true],
  ])("%s: rinse first is %s", async (_, settings, rinse) => {
    const { verdict } = await adviceOf([FAST, bath({ surfactant: true }), bath(settings)]);
    expect(verdict === "rinse-first").toBe(rinse);
    expect(verdict).not.toBe("continue");
  });

  test("saying it afterwards ends the rinsing", async () => {
    const events = [FAST, bath({ surfactant: true }), bath({ kind: "rinse" })];
    const said = newEvent("amended", {
      event: "000004",
      why: null,
      withdrawn: false,
      changes: { surfactant: false },
    });
    expect((await adviceOf(events)).verdict).toBe("rinse-first");
    expect((await adviceOf([...events, said])).verdict).not.toBe("rinse-first");
  });
});

const codes = (advice: Awaited<ReturnType<typeof adviceOf>>) =>
  advice.reasons.map(({ code }) => code);

describe("a record with a damaged event", () => {
  test("gives no go-ahead, whatever the rest would say", async () => {
    const events = [newEvent("before", SCANNED), WIDE, FAST];
    expect((await adviceOf(events)).verdict).toBe("continue");
    const advice = await adviceOf(events, ["000005.json"]);
    expect(advice.verdict).toBe("not-decidable");
    expect(codes(advice)).toContain("event-damaged");
    expect(JSON.stringify(advice)).toContain("000005");
  });

  test("lifts where a bleed is known", async () => {
    const bleed = newEvent("step", { what: "x", area: null, bleed: "red" });
    expect((await adviceOf([FAST, bath({}), bleed], ["000005.json"])).verdict).toBe("lift");
  });
});

describe("a volume that nobody stated", () => {
  const reading = {
    file: "jar.jpg",
    absorbancePerCm: [0.01, 0.02, 0.05],
    absorbanceSigma: [0.001, 0.001, 0.001],
    turbidityIndexPerCm: 0.001,
    pathCm: 5,
    warnings: [],
  };
  const assessed = (volumeMl: number | null) => {
    const photos = [input("spent", "jar.jpg"), input("blank", "blank.jpg")];
    const withPhoto = { ...bath({ surfactant: false, volumeMl }), inputs: photos };
    return assessTreatment(
      memoryRecord([newEvent("before", SCANNED), FAST, withPhoto], {
        "000002-survey": SURVEY,
        "000004-jar": { reading, refused: null, warnings: [] },
      }),
    );
  };

  test("no fade and no go-ahead; the reason names it and the line that adds it", async () => {
    const known = await assessed(500);
    expect(known.assessment.fade.red).not.toBeNull();
    const { assessment, evidence } = await assessed(null);
    expect(evidence?.bathVolumeMl).toBeNull();
    expect(assessment.fade.red).toBeNull();
    expect(assessment.advice.verdict).not.toBe("continue");
    const reason = assessment.advice.reasons.find(({ code }) => code === "volume-unknown");
    expect(reason?.text).toContain("lastrinse amend RECORD 000004 --set volumeMl=ML");
    // Not a number would have become null on its way through JSON: every figure is one, or null by intent.
    const numbers: number[] = [];
    JSON.stringify(assessment, (_, value: unknown) => {
      if (typeof value === "number") numbers.push(value);
      return value;
    });
    expect(numbers.filter(Number.isNaN)).toEqual([]);
  });
});

test("an ink that the scan shows and an evidence file leaves out is not forgotten", async () => {
  const file = join(folder, "evidence.json");
  const blue = { id: "blue", lab: [45, -10, -30], areaCm2: 40, blot: "fast" };
  const content = { schema: "lastrinse.evidence", version: 1, bathVolumeMl: 500, wetSheetMl: 16, paper: { lab: [78, 3, 19] }, inks: [blue] }; // prettier-ignore
  writeFileSync(file, JSON.stringify(content));
  const evidence = await describeInput("/nowhere", "evidence", file);
  const events = [
    newEvent("before", SCANNED),
    newEvent("blot", { ...FAST.settings, ink: "blue" }),
    { ...bath({ surfactant: false }), inputs: [evidence] },
  ];
  const { assessment } = await assessTreatment(memoryRecord(events, { "000002-survey": SURVEY }));
  const told = assessment.advice.reasons.map(({ text }) => text).join(" ");
  expect(assessment.advice.verdict).toBe("not-decidable");
  expect(told).toContain("Red counts as untested");
});

test("a photo that was given to two baths shows the first alone", async () => {
  const reading = {
    file: "jar.jpg",
    absorbancePerCm: [0.01, 0.02, 0.05],
    absorbanceSigma: [0.001, 0.001, 0.001],
    turbidityIndexPerCm: 0.001,
    pathCm: 5,
    warnings: [],
  };
  const kept = { reading, refused: null, warnings: [] };
  const photographed = (spent: string) => ({
    ...bath({ surfactant: false }),
    inputs: [input("spent", spent), input("blank", "blank.jpg")],
  });
  const assessed = async (second: string) =>
    assessTreatment(
      memoryRecord([newEvent("before", SCANNED), WIDE, FAST, photographed("1.jpg"), photographed(second)], { "000002-survey": SURVEY, "000005-jar": kept, "000006-jar": kept }), // prettier-ignore
    );
  const own = await assessed("2.jpg");
  expect(own.baths.map((one) => one.reading !== null)).toEqual([true, true]);
  const shared = await assessed("1.jpg");
  expect(shared.baths.map((one) => one.reading !== null)).toEqual([true, false]);
  expect(shared.baths[1].refused?.code).toBe("same-picture");
  expect(shared.assessment.advice.verdict).toBe("not-decidable");
});

test("only a dry scan ends a treatment", async () => {
  const adviceAfter = async (state: "dry" | "damp") => {
    const after = newEvent("after", { ...SCANNED, state, stage: "washed" });
    const events = [newEvent("before", SCANNED), FAST, bath({ surfactant: true }), after];
    return adviceOf(events);
  };
  expect((await adviceAfter("dry")).headline).toMatch(/finished/i);
  expect((await adviceAfter("damp")).verdict).toBe("rinse-first");
});

test("a bench whose note can't be read gives no go-ahead; one that is not there is told of", async () => {
  const bench = mkdtempSync(join(folder, "bench-"));
  const events = [newEvent("before", SCANNED), WIDE, FAST];
  const at = (name: string) => {
    const record = memoryRecord(events, { "000002-survey": SURVEY });
    const { opened } = record.treatment;
    const treatment = {
      ...record.treatment,
      opened: { ...opened, settings: { ...opened.settings, bench: name } },
    };
    return assessTreatment({ ...record, treatment });
  };
  expect((await at(bench)).assessment.advice.verdict).toBe("continue");
  writeFileSync(join(bench, "half.bench.json"), "{");
  const damaged = await at(bench);
  expect(damaged.assessment.advice.verdict).toBe("not-decidable");
  expect(codes(damaged.assessment.advice)).toContain("bench-unread");
  const gone = await at(join(bench, "gone"));
  expect(gone.warnings.map(({ code }) => code)).toContain("bench-unread");
});

test("an ink that was only tested, or only seen to bleed, counts without a scan", async () => {
  const { assessment, inks } = await assessTreatment(
    memoryRecord([FAST, newEvent("step", { what: "x", area: null, bleed: "violet" })]),
  );
  expect(inks).toEqual([]);
  expect(assessment.advice.verdict).toBe("do-not-immerse");
  expect(JSON.stringify(assessment.advice.reasons)).toContain("violet");
});
