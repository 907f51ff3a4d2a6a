import { describe, expect, test } from "vitest";
import { compareSides } from "../../src/record/compareSides.ts";
import { input, memoryRecord, newEvent, SCANNED } from "../support/memoryRecord.ts";
import { compareResult } from "../support/treatmentView.ts";

const pictures = ["inks", "difference", "before", "after"];

function pair(card: string, kept: Record<string, unknown> = {}) {
  const record = memoryRecord(
    [
      newEvent("before", SCANNED, [input("scan", "before.png")]),
      newEvent("after", { ...SCANNED, card, stage: "washed" }, [input("scan", "after.png")]),
    ],
    kept,
  );
  const before = record.treatment.before.get("front");
  const after = record.treatment.washed.get("front");
  if (before === undefined || after === undefined) throw new RangeError("both were scanned");
  return compareSides(record, before, after);
}

describe("two scans of a record", () => {
  test("with different cards are refused, even where a result was kept", async () => {
    const kept = { "000002-000003-compare": compareResult() };
    await expect(pair("strip", kept)).rejects.toMatchObject({
      code: "frames-differ",
      message:
        "Expected the same card in both scans, received chart24-post2014 before and strip after.",
    });
  });

  test("kept figures and pictures are given without the scans", async () => {
    const named = (name: string) => Uint8Array.of(pictures.indexOf(name));
    const kept = {
      "000002-000003-compare": compareResult(),
      ...Object.fromEntries(pictures.map((name) => [`000002-000003-${name}`, named(name)])),
      "000002-000003-ink-part": Uint8Array.of(9),
    };
    const compared = await pair("chart24-post2014", kept);
    expect(compared.result).toEqual(compareResult());
    expect(compared.pictures).toEqual({
      ...Object.fromEntries(pictures.map((name) => [name, named(name)])),
      inkPart: Uint8Array.of(9),
    });
    const none = { ...kept, "000002-000003-ink-part": new Uint8Array(0) };
    expect((await pair("chart24-post2014", none)).pictures.inkPart).toBeNull();
  });

  test("nothing kept and a scan gone: refused by its name, no figure", async () => {
    await expect(pair("chart24-post2014")).rejects.toMatchObject({
      code: "unreadable",
      input: "before.png",
    });
  });
});
