import { copyFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { LastrinseError } from "../../src/errors.ts";
import { describeInput } from "../../src/record/inputs.ts";
import { readBath, refusedPhoto } from "../../src/record/readBath.ts";
import { input, memoryRecord, newEvent, UNSAID } from "../support/memoryRecord.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";

const folder = temporaryFolder();
const files = ["jar-bath-1.jpg", "jar-bath-2.jpg", "jar-blank.jpg", "station.json"];
for (const name of files)
  copyFileSync(
    fileURLToPath(new URL(`../../sample-images/${name}`, import.meta.url)),
    join(folder, name),
  );
writeFileSync(join(folder, "notes.jpg"), "no picture");
const given = (role: string, name: string) => describeInput("/nowhere", role, join(folder, name));

describe("what the photo of a bath says", () => {
  test("no photo, or one without its blank: no figure, and no refusal", async () => {
    for (const inputs of [[], [await given("spent", "jar-bath-1.jpg")]]) {
      const record = memoryRecord([newEvent("bath", UNSAID, inputs)]);
      expect(await readBath(record, record.treatment.baths[0])).toEqual({
        reading: null,
        refused: null,
        warnings: [],
      });
    }
  });

  test("without a jar's shape it is refused, never assumed; an earlier bath's station serves a later one", async () => {
    const photos = [await given("spent", "jar-bath-2.jpg"), await given("blank", "jar-blank.jpg")];
    const alone = memoryRecord([newEvent("bath", UNSAID, photos)]);
    const refused = await readBath(alone, alone.treatment.baths[0]);
    expect([refused.reading, refused.refused?.code]).toEqual([null, "station-not-found"]);
    const placed = memoryRecord([
      newEvent("bath", UNSAID, [await given("station", "station.json")]),
      newEvent("bath", UNSAID, photos),
    ]);
    const { reading } = await readBath(placed, placed.treatment.baths[1]);
    expect(reading?.absorbancePerCm.every(Number.isFinite)).toBe(true);
  });

  test("a file that is no picture, or gone, is refused for now; the bath is not", async () => {
    for (const [spent, code] of [
      [await given("spent", "notes.jpg"), "unsupported-format"],
      [input("spent", "none.jpg"), "unreadable"],
    ] as const) {
      const record = memoryRecord([
        newEvent("bath", UNSAID, [
          spent,
          await given("blank", "jar-blank.jpg"),
          await given("station", "station.json"),
        ]),
      ]);
      expect((await readBath(record, record.treatment.baths[0])).refused?.code).toBe(code);
    }
  });
});

describe("a refusal as a result", () => {
  const refusal = new LastrinseError("overexposed", "white is burnt out", {
    remedy: "expose less",
  });
  test("says code, message and remedy", () => {
    expect(refusedPhoto(refusal, 4)).toEqual({
      reading: null,
      refused: { code: "overexposed", message: "white is burnt out", remedy: "expose less" },
    });
  });

  test("a defect, or a refusal of another kind, is thrown on", () => {
    expect(() => refusedPhoto(new TypeError("x"))).toThrow(TypeError);
    expect(() => refusedPhoto(refusal, 3)).toThrow(refusal);
  });
});
