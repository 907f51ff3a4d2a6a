import { describe, expect, test } from "vitest";
import type { Settings } from "../../src/record/event.ts";
import { repeatConditions } from "../../src/record/repeatConditions.ts";
import type { BathEvent } from "../../src/record/treatment.ts";
import { UNSAID } from "../support/memoryRecord.ts";

const baths = (...settings: readonly Partial<Settings<"bath">>[]): BathEvent[] =>
  settings.map((own, i) => ({
    id: String(i + 2).padStart(6, "0"),
    at: "",
    inputs: [],
    order: i + 2,
    settings: { ...UNSAID, ...own },
  }));

describe("conditions of a bath", () => {
  test("of which nothing was ever said stay unknown, and nothing is called repeated", () => {
    expect(repeatConditions({ card: null }, [])).toEqual(UNSAID);
    expect(repeatConditions({ kind: "rinse", card: null }, [])).toEqual({
      ...UNSAID,
      kind: "rinse",
    });
  });

  test.each<
    [string, Partial<Settings<"bath">>, Partial<Settings<"bath">>[], Partial<Settings<"bath">>]
  >([
    [
      "a wash like the wash before it",
      { kind: "wash" },
      [{ surfactant: true, minutes: 5, volumeMl: 500 }],
      {
        surfactant: true,
        minutes: 5,
        volumeMl: 500,
        repeated: ["surfactant", "minutes", "volumeMl"],
      },
    ],
    [
      "a rinse after a wash repeats nothing of it",
      { kind: "rinse" },
      [{ surfactant: true, minutes: 5, volumeMl: 500 }],
      { kind: "rinse", surfactant: null, minutes: null, volumeMl: null, repeated: [] },
    ],
    [
      "all left out after a plain rinse: another such rinse",
      {},
      [{ surfactant: true }, { kind: "rinse", surfactant: false, phIn: 8.5 }],
      { kind: "rinse", surfactant: false, phIn: 8.5, repeated: ["kind", "surfactant", "phIn"] },
    ],
    [
      "what was unknown before is unknown, not repeated",
      { kind: "wash", minutes: 4 },
      [{ surfactant: null, minutes: 5, temperatureC: null }],
      { surfactant: null, minutes: 4, temperatureC: null, repeated: [] },
    ],
    [
      "what is said of this bath alone is never taken over",
      { kind: "wash" },
      [{ phOut: 8, foam: "much", note: "x" }],
      { phOut: null, foam: null, note: null, repeated: [] },
    ],
  ])("%s", (_, given, earlier, expected) => {
    expect(repeatConditions({ ...given, card: null }, baths(...earlier))).toMatchObject(expected);
  });

  test.each<[boolean | null, string]>([
    [true, "bath 000002 held surfactant"],
    [null, "bath 000002 may have held surfactant"],
  ])("the kind is asked for where the last bath's surfactant is %s", (surfactant, words) => {
    for (const kind of ["wash", "rinse"] as const) {
      const ask = () => repeatConditions({ card: null }, baths({ kind, surfactant }));
      expect(ask).toThrow(expect.objectContaining({ code: "wrong-use", input: "--kind" }));
      expect(ask).toThrow(words);
    }
  });
});
