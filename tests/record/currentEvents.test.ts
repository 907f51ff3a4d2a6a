import { describe, expect, test } from "vitest";
import { currentEvents, type UnfitCorrection } from "../../src/record/currentEvents.ts";
import type { EventInput } from "../../src/record/event.ts";
import { input, newEvent, numbered, UNSAID } from "../support/memoryRecord.ts";

const corrected = (
  changes: Record<string, unknown>,
  more: { readonly inputs?: readonly EventInput[]; readonly withdrawn?: boolean } = {},
) =>
  newEvent(
    "amended",
    { event: "000002", why: null, withdrawn: more.withdrawn ?? false, changes },
    more.inputs,
  );

const BATH = newEvent(
  "bath",
  { ...UNSAID, minutes: 5, surfactant: false, repeated: ["minutes", "surfactant"] },
  [input("spent", "blurred.jpg"), input("blank", "blank.jpg"), input("station", "station.json")],
);

describe("the record as it stands", () => {
  test("photos given later take the place of the first ones; other files stay", () => {
    const [, bath] = currentEvents(
      numbered([
        BATH,
        corrected({}, { inputs: [input("spent", "sharp.jpg"), input("blank", "blank-2.jpg")] }),
      ]),
    );
    expect(bath.inputs.map(({ role, file }) => [role, file])).toEqual([
      ["station", "station.json"],
      ["spent", "sharp.jpg"],
      ["blank", "blank-2.jpg"],
    ]);
    expect(bath.settings).toEqual(BATH.settings);
  });

  test("a condition said afterwards is no longer a repeated one", () => {
    const [, bath] = currentEvents(numbered([BATH, corrected({ surfactant: false })]));
    expect(bath.settings).toMatchObject({ surfactant: false, repeated: ["minutes"] });
  });

  test("a correction that fits nothing is told of and changes nothing; the later ones count", () => {
    const unfit: UnfitCorrection[] = [];
    const [, bath] = currentEvents(
      numbered([
        BATH,
        corrected({ minutes: "long" }),
        corrected({ later: 1 }),
        corrected({ minutes: 7 }),
      ]),
      (one) => unfit.push(one),
    );
    expect(unfit.map(({ id }) => id)).toEqual(["000003", "000004"]);
    expect(unfit[0].error.message).toContain('The value of "minutes" does not fit event 000002');
    expect(bath.settings).toMatchObject({ minutes: 7 });
  });

  test("files can't bring a withdrawn bath back", () => {
    const events = [
      BATH,
      corrected({}, { withdrawn: true }),
      corrected({}, { inputs: [input("spent", "x.jpg")] }),
    ];
    expect(currentEvents(numbered(events)).map(({ kind }) => kind)).toEqual(["opened"]);
  });
});
