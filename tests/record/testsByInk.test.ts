import { describe, expect, test } from "vitest";
import { bleedingByInk, testsByInk } from "../../src/record/testsByInk.ts";
import { memoryRecord, newEvent, TESTED } from "../support/memoryRecord.ts";

describe("blotter tests by ink", () => {
  test("stand in order with their liquids as stated; without a result an ink stays untested", () => {
    const { treatment } = memoryRecord([
      newEvent("blot", { ...TESTED, surfactant: true, ph: 8.5, temperatureC: 38, minutes: 5 }),
      newEvent("blot", { ...TESTED, ink: "blue", result: null }),
      newEvent("blot", { ...TESTED, result: "bleeds" }),
    ]);
    const tests = testsByInk(
      treatment.blots.map((event) => ({ event, result: event.settings.result })),
    );
    const unstated = { surfactant: null, ph: null, temperatureC: null, minutes: null };
    expect(tests.get("red")).toEqual([
      {
        result: "fast",
        liquid: { surfactant: true, ph: 8.5, temperatureC: 38, minutes: 5 },
        order: 2,
      },
      { result: "bleeds", liquid: unstated, order: 4 },
    ]);
    expect(tests.get("blue")).toEqual([{ result: "untested", liquid: unstated, order: 3 }]);
  });
});

describe("bleeding seen at the tray", () => {
  test("every report of an ink counts, steps without one don't", () => {
    const step = (bleed: string | null) => newEvent("step", { what: "x", area: null, bleed });
    const { treatment } = memoryRecord([step("red"), step(null), step("red"), step("blue")]);
    expect([...bleedingByInk(treatment.steps)]).toEqual([
      [
        "red",
        [
          { how: "seen", order: 2 },
          { how: "seen", order: 4 },
        ],
      ],
      ["blue", [{ how: "seen", order: 5 }]],
    ]);
  });
});
