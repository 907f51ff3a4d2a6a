import { join } from "node:path";
import sharp from "sharp";
import { beforeAll, describe, expect, test } from "vitest";
import type { NewEvent } from "../../src/record/appendEvent.ts";
import type { EventKind, Settings } from "../../src/record/event.ts";
import { describeInput } from "../../src/record/inputs.ts";
import { viewTreatment } from "../../src/record/treatmentView.ts";
import { input, memoryRecord, newEvent, SCANNED, TESTED, UNSAID } from "../support/memoryRecord.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";

const folder = temporaryFolder();
const LIQUID = { surfactant: true, ph: 8.5, temperatureC: 38, minutes: 5 };
const FAST = newEvent("blot", { ...TESTED, ...LIQUID });
const BEFORE = newEvent("before", SCANNED, [input("scan", "front.png")]);
const bath = (settings: Partial<Settings<"bath">> = {}) =>
  newEvent("bath", {
    ...UNSAID,
    surfactant: false,
    minutes: 5,
    temperatureC: 38,
    phIn: 8.5,
    volumeMl: 500,
    ...settings,
  });
/** A limit that no fast ink reaches in one bath. */
const WIDE = newEvent("amended", {
  event: "000001",
  why: null,
  withdrawn: false,
  changes: { limits: { maxDeltaE00: 40, risk: 0.1, minGain: 0.1 } },
});
const SURVEY = {
  paperLab: [78, 3, 19],
  inks: [{ id: "red", kind: "ink", lab: [50, 50, 30], areaCm2: 90 }],
  warnings: [],
};

const viewOf = (events: readonly NewEvent<EventKind>[], kept: Record<string, unknown> = {}) =>
  viewTreatment(memoryRecord(events, kept));
/** What was advised before each bath; `scan` is the number of the before scan's event. */
const advisedBefore = async (events: readonly NewEvent<EventKind>[], scan: number) => {
  const kept = { [`${String(scan).padStart(6, "0")}-survey`]: SURVEY };
  const { baths } = await viewOf(events, kept);
  return baths.map(({ adviceBefore: { verdict } }) => verdict);
};

describe("the advice that stood before a bath", () => {
  test("rests on the tests made before it, not on those made after it", async () => {
    expect(await advisedBefore([BEFORE, WIDE, FAST, bath()], 2)).toEqual(["continue"]);
    expect(await advisedBefore([BEFORE, WIDE, bath(), FAST], 2)).toEqual(["not-decidable"]);
  });

  test("knows of a bleed from the moment it was seen", async () => {
    const bleed = newEvent("step", { what: "x", area: null, bleed: "red" });
    expect((await advisedBefore([BEFORE, WIDE, FAST, bath(), bleed, bath()], 2))[1]).toBe("lift");
    expect((await advisedBefore([BEFORE, WIDE, FAST, bath(), bath(), bleed], 2))[1]).not.toBe(
      "lift",
    );
  });

  test("is about the bath that was taken: hotter than the test, the test says nothing of it", async () => {
    expect(await advisedBefore([BEFORE, WIDE, FAST, bath({ temperatureC: 45 })], 2)).toEqual([
      "not-decidable",
    ]);
    expect(await advisedBefore([BEFORE, WIDE, FAST, bath({ temperatureC: null })], 2)).toEqual([
      "not-decidable",
    ]);
  });

  test("asks for the rinse that a bath with surfactant owes", async () => {
    const [, second] = await advisedBefore(
      [BEFORE, WIDE, FAST, bath({ surfactant: true }), bath()],
      2,
    );
    expect(second).toBe("rinse-first");
  });
});

describe("a record with a hole, or without its front", () => {
  test("gave no go-ahead before the baths after the hole, and may have given one before", async () => {
    const record = memoryRecord([BEFORE, WIDE, FAST, bath(), bath()], { "000002-survey": SURVEY });
    const damaged = [{ file: "000005.json", problem: "it is not whole JSON" }];
    const view = await viewTreatment({ ...record, damaged });
    expect(view.baths.map(({ adviceBefore }) => adviceBefore.verdict)).toEqual([
      "continue",
      "not-decidable",
    ]);
  });

  test("without the front's scan nothing was predicted before any bath either", async () => {
    const back = newEvent("before", { ...SCANNED, side: "back" }, [input("scan", "back.png")]);
    const view = await viewOf([back, WIDE, FAST, bath(), bath()], { "000002-survey": SURVEY });
    for (const one of view.baths) {
      expect(one.adviceBefore.verdict).not.toBe("continue");
      expect(Object.values(one.fadeSoFar).filter((fade) => fade !== null)).toEqual([]);
    }
  });
});

describe("what is not there is null", () => {
  test("a bath without photos has no figures, no share and no fade", async () => {
    const view = await viewOf([BEFORE, FAST, bath()], { "000002-survey": SURVEY });
    expect(view.kind).toBe("interim");
    expect(view.prediction).toBeNull();
    const [one] = view.baths;
    expect(one).toMatchObject({
      hasPhoto: false,
      jar: null,
      refused: null,
      inkShare: null,
      spentPhoto: null,
      blankPhoto: null,
    });
    expect(Object.values(one.fadeSoFar).every((fade) => fade === null)).toBe(true);
  });

  test("photos that are gone are a refusal, not a reading", async () => {
    const gone = newEvent("bath", bath().settings, [
      input("spent", "spent.png"),
      input("blank", "blank.png"),
    ]);
    const view = await viewOf([BEFORE, FAST, gone], { "000002-survey": SURVEY });
    const [one] = view.baths;
    expect(one.hasPhoto).toBe(true);
    expect(one.jar).toBeNull();
    expect(one.refused?.message).toContain("spent.png");
    expect(one.spentPhoto).toBeNull();
  });

  test("a record without any scan has no picture and no compared side", async () => {
    const view = await viewOf([FAST]);
    expect(view.beforePicture).toBeNull();
    expect(view.comparisons).toEqual([]);
    expect(view.scannedBefore).toEqual([]);
    expect(view.nextBath).toBeNull();
  });
});

describe("sides and stages", () => {
  test("an after scan whose files are gone is told as refused and makes no prediction", async () => {
    const after = newEvent("after", { ...SCANNED, stage: "washed" }, [input("scan", "after.png")]);
    const view = await viewOf([BEFORE, FAST, bath(), after], { "000002-survey": SURVEY });
    expect(view.kind).toBe("final");
    expect(view.scannedAfter).toEqual(["front"]);
    const [compared] = view.comparisons;
    expect(compared.compared).toBeNull();
    expect(compared.refused?.message).toMatch(/front\.png|after\.png/);
    expect(view.prediction).toBeNull();
  });

  test("the picture is that of the first side scanned", async () => {
    const back = newEvent("before", { ...SCANNED, side: "back" }, [input("scan", "back.png")]);
    const png = new Uint8Array([1, 2, 3]);
    const view = await viewOf([back, FAST], { "000002-survey": SURVEY, "000002-picture": png });
    expect(view.beforePicture).toEqual({ side: "back", png });
  });
});

describe("blotter tests", () => {
  let photo: Awaited<ReturnType<typeof describeInput>>;
  beforeAll(async () => {
    const file = join(folder, "blotter.png");
    await sharp({ create: { width: 40, height: 30, channels: 3, background: "#d8c8b0" } })
      .png()
      .toFile(file);
    photo = await describeInput("/nowhere", "photo", file);
  });

  test("keep the word, and show the photo while it is the one that was recorded", async () => {
    const shown = newEvent("blot", FAST.settings, [photo]);
    const other = newEvent("blot", FAST.settings, [{ ...photo, sha256: "0".repeat(64) }]);
    const graded = { result: "fast", refused: null };
    const view = await viewOf([shown, other, FAST], {
      "000002-blot": graded,
      "000003-blot": graded,
    });
    expect(view.blots.map(({ hasPhoto }) => hasPhoto)).toEqual([true, true, false]);
    expect(view.blots.map((one) => one.photo !== null)).toEqual([true, false, false]);
    expect(view.blots[2].result).toBe("fast");
  });
});
