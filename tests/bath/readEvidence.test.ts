import { describe, expect, test } from "vitest";
import { readEvidence } from "../../src/bath/readEvidence.ts";
import { LastrinseError } from "../../src/errors.ts";

const GOOD = {
  schema: "lastrinse.evidence",
  version: 1,
  bathVolumeMl: 500,
  wetSheetMl: 16,
  paper: { lab: [78, 3, 19] },
  inks: [
    { id: "red", lab: [59.84, 45.33, 33.97], areaCm2: 90, blot: "doubtful" },
    { id: "blue", lab: [45, -10, -30], areaCm2: 40, blot: "fast", stainedAreaCm2: 4 },
  ],
  baths: [
    { kind: "wash", surfactant: true, minutes: 5, temperatureC: 38, volumeMl: 400, settled: false },
    { kind: "rinse", surfactant: false },
  ],
  unprintedStrip: { file: "strip.jpg", blank: "blank.jpg" },
  limits: { maxDeltaE00: 1.5, risk: 0.05, minGain: 0.2 },
};

describe("evidence file", () => {
  test("is read whole, gaps filled with stated defaults", () => {
    const evidence = readEvidence(JSON.stringify(GOOD), "evidence.json");
    expect(evidence.inks.map(({ stainedAreaCm2 }) => stainedAreaCm2)).toEqual([null, 4]);
    expect(evidence.baths[0]).toMatchObject({ volumeMl: 400, minutes: 5, ph: null });
    expect(evidence.baths[1]).toMatchObject({ volumeMl: 500, minutes: null, settled: false });
    expect(evidence.limits).toEqual({ maxDeltaE00: 1.5, risk: 0.05, minGain: 0.2 });
    const least = readEvidence(
      JSON.stringify({
        ...GOOD,
        wetSheetMl: undefined,
        baths: undefined,
        limits: undefined,
        unprintedStrip: undefined,
      }),
      "e.json",
    );
    expect(least).toMatchObject({
      wetSheetMl: 16,
      baths: [],
      unprintedStrip: null,
      limits: { maxDeltaE00: 2, risk: 0.1, minGain: 0.1 },
    });
  });

  test.each([
    ["no volume anywhere", undefined, undefined, null],
    ["a bath without, as all baths", 500, undefined, 500],
    ["a bath of its own", 500, 350, 350],
    ["a bath that is said not to be known", 500, null, null],
  ])("volume: %s", (_, bathVolumeMl, volumeMl, expected) => {
    const baths = [{ kind: "wash", volumeMl }];
    const read = readEvidence(JSON.stringify({ ...GOOD, bathVolumeMl, baths }), "evidence.json");
    expect(read.bathVolumeMl).toBe(bathVolumeMl ?? null);
    // What nobody stated is null, not false and not 0.
    expect(read.baths[0]).toMatchObject({ volumeMl: expected, surfactant: null, ph: null });
  });

  test.each([
    ["another schema", { schema: "lastrinse.station" }, /schema/],
    ["a volume of nothing", { bathVolumeMl: 0 }, /bathVolumeMl/],
    [
      "a word for a blotter result that isn't one",
      { inks: [{ ...GOOD.inks[0], blot: "ok" }] },
      /inks\[0\]\.blot/,
    ],
    ["an area below nothing", { inks: [{ ...GOOD.inks[0], areaCm2: -1 }] }, /inks\[0\]\.areaCm2/],
    ["a Lab of two numbers", { inks: [{ ...GOOD.inks[0], lab: [50, 1] }] }, /inks\[0\]\.lab/],
    ["one ink twice", { inks: [GOOD.inks[0], GOOD.inks[0]] }, /inks\[1\]\.id: "red" stands twice/],
    ["soil as an ink", { inks: [{ ...GOOD.inks[0], id: "soil" }] }, /inks\[0\]\.id/],
    [
      "more stained than printed",
      { inks: [{ ...GOOD.inks[1], stainedAreaCm2: 50 }] },
      /stainedAreaCm2/,
    ],
    ["surfactant as a word", { baths: [{ kind: "wash", surfactant: "no" }] }, /surfactant/],
    [
      "a settled photo first",
      { baths: [{ ...GOOD.baths[0], settled: true }] },
      /baths\[0\]\.settled/,
    ],
    ["a risk in percent", { limits: { risk: 10 } }, /limits\.risk/],
  ])("%s is refused with its path", (_, change, path) => {
    try {
      readEvidence(JSON.stringify({ ...GOOD, ...change }), "evidence.json");
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(LastrinseError);
      const { code, message, remedy, input } = error as LastrinseError;
      expect(code).toBe("bad-json");
      expect(message).toMatch(path);
      expect(message).toMatch(/in evidence\.json/);
      expect(remedy).toMatch(/Mend/);
      expect(input).toBe("evidence.json");
    }
  });

  test("something that is no object at all is refused, not crashed on", () => {
    for (const json of [null, 3, "text", []])
      expect(() => readEvidence(JSON.stringify(json), "x")).toThrow(LastrinseError);
  });
});
