import { describe, expect, test } from "vitest";
import { DEFAULT_LIMITS } from "../../calibration/priors.ts";
import type { Advice } from "../../src/advice/advice.ts";
import { decide } from "../../src/advice/decide.ts";
import type {
  BathState,
  BlotTest,
  FadeForecast,
  InkState,
  Liquid,
  TreatmentState,
} from "../../src/advice/treatmentState.ts";

const PLAIN: Liquid = { surfactant: false, ph: 8.5, temperatureC: 30, minutes: 5 };
const SOAPY: Liquid = { ...PLAIN, surfactant: true };
const FADE: FadeForecast = {
  medianDeltaE00: 0.4,
  benchLogSd: 0.6,
  shareLogSd: 0.2,
  nextShare: 0.3,
  nextLogSd: 0.42,
};
const fast = (liquid: Liquid | null = SOAPY): BlotTest => ({ result: "fast", liquid, order: 0 });
const ink = (change: Partial<InkState> = {}): InkState => ({
  id: "red",
  tests: [fast()],
  bleeding: [],
  contradicted: false,
  fade: FADE,
  hiddenLoss: null,
  ...change,
});
const bath = (change: Partial<BathState> = {}): BathState => ({
  kind: "rinse",
  usable: true,
  volumeMl: 500,
  event: "000007",
  ...PLAIN,
  ...change,
});
const state = (change: Partial<TreatmentState> = {}): TreatmentState => ({
  inks: [ink()],
  baths: [bath({ kind: "wash", ...SOAPY, event: "000006" }), bath()],
  next: null,
  limits: DEFAULT_LIMITS,
  gain: { next: 0.02, soFar: 0.09, noise: 0.0008 },
  ...change,
});
const LITTLE = { next: 0.002, soFar: 0.09, noise: 0.0008 };
const RISKY = [ink({ fade: { ...FADE, medianDeltaE00: 3 } })];
const allOf = ({ headline, sheetText, mustDo }: Advice): string =>
  [headline, sheetText, ...mustDo].join("\n");

/** Name, treatment, verdict, sheet, headline, what must be said, what must not. */
const CASES: readonly (readonly [
  string,
  Partial<TreatmentState>,
  string,
  string,
  string,
  RegExp,
  RegExp,
])[] = [
  [
    "too much risk: no bath of any kind",
    { inks: RISKY },
    "stop",
    "drain-on-support",
    "stop cleaning; no further bath, let it dry",
    /no further bath: the last one was plain \(without surfactant\), so no rinse is owed/,
    /alkaline bath|rinse and finish/,
  ],
  [
    "little gain, last bath alkaline: its reserve stays",
    { gain: LITTLE },
    "stop",
    "drain-on-support",
    "stop cleaning; no further bath, let it dry",
    /It had pH 8\.5, so an alkaline reserve stays/,
    /If the last bath|One last bath/,
  ],
  [
    "little gain, last bath neutral, alkali tested: one last bath, and the sheet goes into it",
    { gain: LITTLE, baths: [bath({ ph: 7 })] },
    "stop",
    "in-rinse",
    "stop cleaning; one last alkaline bath, then dry",
    /One last bath without surfactant, at most pH 8\.5, 30 °C, 5 minutes/,
    /out of the bath|no further bath|If the last bath/,
  ],
  [
    "the same, but its pH is not stated: untested, so nothing is ordered",
    { gain: LITTLE, baths: [bath({ ph: null })] },
    "not-decidable",
    "drain-on-support",
    "cannot be decided yet",
    /drain while you decide/,
    /One last bath/,
  ],
  [
    "little gain, last bath neutral, no test in alkali: dry",
    {
      gain: LITTLE,
      baths: [bath({ ph: 7 })],
      inks: [ink({ tests: [fast({ ...SOAPY, ph: 7 })] })],
    },
    "stop",
    "drain-on-support",
    "stop cleaning; no further bath, let it dry",
    /not every ink was tested in one/,
    /One last bath/,
  ],
  [
    "little gain, last bath neutral, an ink that alkali may change where it stands: dry",
    { gain: LITTLE, baths: [bath({ ph: 7 })], inks: [ink({ hiddenLoss: "may be iron blue." })] },
    "stop",
    "drain-on-support",
    "stop cleaning; no further bath, let it dry",
    /alkali may change red where it stands/,
    /One last bath/,
  ],
  [
    "little gain and too much risk: the risk forbids the last bath too",
    { gain: LITTLE, baths: [bath({ ph: 7 })], inks: RISKY },
    "stop",
    "drain-on-support",
    "stop cleaning; no further bath, let it dry",
    /no further bath/,
    /One last bath/,
  ],
  [
    "surfactant last: one rinse, not two",
    { baths: [bath({ kind: "wash", ...SOAPY })] },
    "rinse-first",
    "in-rinse",
    "one plain rinse first, then ask again",
    /One plain bath \(without surfactant\)/,
    /better two|finish/,
  ],
  [
    "too much risk before any bath: it stays dry, nothing is drained",
    { baths: [], gain: null, inks: RISKY },
    "stop",
    "not-in-water",
    "no bath for this cover, within your limits",
    /Keep the sheet dry/,
    /[Dd]rain|rinse|no further bath/,
  ],
  [
    "fast blotters before any bath",
    { baths: [], gain: null },
    "continue",
    "not-in-water",
    "a first bath is within your limits",
    /Use the liquid that was tested/,
    /another bath|last bath/,
  ],
  [
    "scanned dry: finished, whatever the figures would say",
    { finished: true },
    "stop",
    "not-in-water",
    "this treatment is finished",
    /lastrinse report RECORD/,
    /[Dd]rain|bath|\brinse|scan again/,
  ],
  [
    "scanned dry with surfactant left in: finished, no rinse of a dry sheet",
    { finished: true, baths: [bath({ ...SOAPY })] },
    "stop",
    "not-in-water",
    "this treatment is finished",
    /report/,
    /plain bath|Lift/,
  ],
];

describe("one order at a time", () => {
  test.each(CASES)("%s", (_, change, verdict, sheetNow, headline, said, unsaid) => {
    const advice = decide(state(change));
    expect(advice).toMatchObject({ verdict, sheetNow, headline });
    expect(allOf(advice)).toMatch(said);
    expect(allOf(advice)).not.toMatch(unsaid);
  });

  test("the strip is named only where it was used", () => {
    const card = (stripCard: boolean) => allOf(decide(state({ inks: RISKY, stripCard })));
    expect(card(true)).toContain("the same strip in the frame");
    expect(card(false)).toContain("the same card in the frame");
    expect(card(false)).not.toContain("strip");
  });

  test("plain is said with its meaning, and nothing else is called plain", () => {
    for (const [, change] of CASES)
      for (const [word] of allOf(decide(state(change))).matchAll(/plain[^,;]{0,24}/g))
        expect(word).toMatch(/^plain (?:rinse|\(without|bath \(without)/);
  });
});

describe("a damaged event gives no go-ahead", () => {
  const damagedEvents = ["000009.json"];
  test.each([
    ["all else well", {}, "not-decidable", "drain-on-support"],
    ["surfactant last", { baths: [bath({ ...SOAPY })] }, "not-decidable", "drain-on-support"],
    ["before any bath", { baths: [], gain: null }, "not-decidable", "not-in-water"],
    ["too much risk", { inks: RISKY }, "not-decidable", "drain-on-support"],
    ["scanned dry", { finished: true }, "not-decidable", "drain-on-support"],
    [
      "a bleed is known",
      { inks: [ink({ bleeding: [{ how: "seen", order: 9 }] })] },
      "lift",
      "blot-both-faces",
    ],
    [
      "a bleed is known, no bath can be read: the damaged event may be one",
      { baths: [], gain: null, inks: [ink({ bleeding: [{ how: "seen", order: 9 }] })] },
      "lift",
      "blot-both-faces",
    ],
  ] as const)("%s", (_, change, verdict, sheetNow) => {
    const advice = decide(state({ ...change, damagedEvents }));
    expect(advice).toMatchObject({ verdict, sheetNow });
    if (verdict === "not-decidable")
      expect(advice.reasons[0]).toMatchObject({
        code: "event-damaged",
        text: expect.stringContaining("000009.json of the record can't be read") as string,
      });
  });
});

describe("the upper bound goes first, and what the bath can't show has no share", () => {
  test("risk in words", () => {
    const advice = decide(state({ inks: RISKY }));
    expect(advice.reasons[0].text).toMatch(
      /^red: up to \d+\.\d dE00 with one more bath; your limit is 2\. Risk of passing it: \d+ % \(accepted: 10 %\)\.$/,
    );
    // In one treatment of twenty it is exceeded: above the limit wherever the risk is above 5 %.
    expect(advice.upperDeltaE00.red).toBeGreaterThan(3);
  });

  test("a loss that the bath can't show: no share, a reason, and the visible part still decides", () => {
    const hiddenLoss = "red may be chrome yellow: the bath can't show this loss.";
    const quiet = decide(state({ inks: [ink({ hiddenLoss })] }));
    expect(quiet.riskOfExceeding.red).toBeNull();
    expect(quiet.notShown).toEqual(["red"]);
    expect(quiet.reasons.at(-1)).toMatchObject({ code: "loss-not-shown", ink: "red" });
    // What dissolves alone passes the limit: that much is known.
    const loud = decide(state({ inks: RISKY.map((one) => ({ ...one, hiddenLoss })) }));
    expect(loud.verdict).toBe("stop");
    expect(loud.riskOfExceeding.red).toBeGreaterThan(0.1);
  });
});
