import { describe, expect, test } from "vitest";
import { inputOf, treatmentOf } from "../../src/record/treatment.ts";
import { input, newEvent, numbered, SCANNED, UNSAID } from "../support/memoryRecord.ts";

describe("the fold of a record", () => {
  test("a repeated scan of a side supersedes; sides and stages stand apart; order is that of the record", () => {
    const after = { ...SCANNED, stage: "washed" as const };
    const { before, washed, finished } = treatmentOf(
      numbered([
        newEvent("before", SCANNED, [input("scan", "first.png")]),
        newEvent("before", { ...SCANNED, side: "back" }, [input("scan", "back.png")]),
        newEvent("before", SCANNED, [input("scan", "second.png")]),
        newEvent("after", after, [input("scan", "washed.png")]),
        newEvent("after", { ...after, stage: "finished" }, [input("scan", "finished.png")]),
      ]),
    );
    const file = (event: Parameters<typeof inputOf>[0] | undefined) =>
      event && inputOf(event, "scan")?.file;
    expect([file(before.get("front")), file(before.get("back"))]).toEqual([
      "second.png",
      "back.png",
    ]);
    expect([file(washed.get("front")), file(finished.get("front"))]).toEqual([
      "washed.png",
      "finished.png",
    ]);
    expect(before.get("front")?.order).toBe(4);
    expect(inputOf({ inputs: [] }, "scan")).toBeUndefined();
  });

  // The first release wrote "none" where nothing was said, and called it repeated.
  const guessed = { ...UNSAID, surfactant: false, repeated: ["surfactant"] };
  const said = { ...UNSAID, surfactant: false };
  test.each([
    ["a guess of the first release is unknown", [guessed], [null]],
    ["and stays so when it was guessed again", [guessed, guessed], [null, null]],
    ["what was said stands, and may be repeated", [said, guessed], [false, false]],
    ["but not from another kind", [said, { ...guessed, kind: "rinse" as const }], [false, null]],
    ["surfactant repeated stays surfactant", [{ ...guessed, surfactant: true }], [true]],
    ["what was never said is never none", [UNSAID, guessed], [null, null]],
  ])("%s", (_, baths, surfactant) => {
    const events = numbered(baths.map((settings) => newEvent("bath", settings)));
    expect(treatmentOf(events).baths.map(({ settings }) => settings.surfactant)).toEqual(
      surfactant,
    );
  });

  test("a guess of the first release that was corrected since is known", () => {
    const events = numbered([
      newEvent("bath", guessed),
      newEvent("amended", {
        event: "000002",
        why: null,
        withdrawn: false,
        changes: { surfactant: false },
      }),
    ]);
    expect(treatmentOf(events).baths[0].settings.surfactant).toBe(false);
  });
});
