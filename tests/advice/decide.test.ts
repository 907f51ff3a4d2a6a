import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { decide } from "../../src/advice/decide.ts";
import { riskOfExceeding } from "../../src/advice/riskOfExceeding.ts";
import type {
  BathState,
  BlotTest,
  FadeForecast,
  InkState,
  Liquid,
  TreatmentState,
} from "../../src/advice/treatmentState.ts";
import { DEFAULT_LIMITS } from "../../calibration/priors.ts";

const MILD: Liquid = { surfactant: false, ph: 8, temperatureC: 30, minutes: 5 };
const fast = (liquid: Liquid | null = MILD, order = 0): BlotTest => ({
  result: "fast",
  liquid,
  order,
});
const forecast = (change: Partial<FadeForecast> = {}): FadeForecast => ({
  medianDeltaE00: 0.4,
  benchLogSd: 0.6,
  shareLogSd: 0.2,
  nextShare: 0.3,
  nextLogSd: 0.42,
  ...change,
});
const ink = (change: Partial<InkState> = {}): InkState => ({
  id: "red",
  tests: [fast()],
  bleeding: [],
  contradicted: false,
  fade: forecast(),
  hiddenLoss: null,
  ...change,
});
const bath = (change: Partial<BathState> = {}): BathState => ({
  kind: "wash",
  usable: true,
  volumeMl: 500,
  event: null,
  ...MILD,
  ...change,
});
const state = (change: Partial<TreatmentState> = {}): TreatmentState => ({
  inks: [ink()],
  baths: [bath(), bath()],
  next: null,
  limits: DEFAULT_LIMITS,
  gain: { next: 0.02, soFar: 0.09, noise: 0.0008 },
  ...change,
});
const verdict = (change: Partial<TreatmentState> = {}) => decide(state(change)).verdict;

describe("probability of exceeding the limit (check values of the decision, 3 decimals)", () => {
  const plain = { shareLogSd: 0, nextShare: 0, nextLogSd: 0 };
  test.each([
    [1.2, 0.6, 0.197],
    [1.2, 0.3, 0.044],
    [2, 0.6, 0.5],
  ])("median %d, log-sd %d: %d", (medianDeltaE00, benchLogSd, printed) => {
    const risk = riskOfExceeding({ medianDeltaE00, benchLogSd, ...plain }, 2);
    expect(Math.abs(Number(risk) - printed)).toBeLessThan(0.0006);
  });

  test("the errors join in quadrature, the next bath's by its share", () => {
    const joined = riskOfExceeding(forecast({ medianDeltaE00: 1 }), 2);
    const sd = Math.hypot(0.6, 0.2, 0.3 * 0.42);
    const same = riskOfExceeding({ medianDeltaE00: 1, benchLogSd: sd, ...plain }, 2);
    expect(joined).toBeCloseTo(Number(same), 12);
  });

  test("no fade, no risk; no error, no doubt", () => {
    expect(riskOfExceeding(forecast({ medianDeltaE00: 0 }), 2)).toBe(0);
    const exact = { benchLogSd: 0, ...plain };
    expect(riskOfExceeding({ medianDeltaE00: 1.9, ...exact }, 2)).toBe(0);
    expect(riskOfExceeding({ medianDeltaE00: 2.1, ...exact }, 2)).toBe(1);
  });
});

describe("verdicts in their order", () => {
  test("all well: continue in the bath, with the tested limits", () => {
    const advice = decide(state());
    expect(advice).toMatchObject({ verdict: "continue", sheetNow: "in-bath" });
    expect(advice.reasons.map(({ code }) => code)).toEqual(["risk-within-limit", "gain-enough"]);
    expect(advice.mustDo[0]).toMatch(/at most pH 8\.3, 32 °C, 5 minutes/);
    expect(advice.riskOfExceeding.red).toBeGreaterThan(0);
    expect(advice.riskOfExceeding.red).toBeLessThan(0.1);
  });

  test("no bath yet and an ink bleeds in the blotter test: do not immerse", () => {
    const advice = decide(
      state({ baths: [], gain: null, inks: [ink({ tests: [{ ...fast(), result: "bleeds" }] })] }),
    );
    expect(advice).toMatchObject({ verdict: "do-not-immerse", sheetNow: "not-in-water" });
    expect(advice.reasons[0].text).toBe("Red bleeds: its blotter test bled.");
  });

  test.each(["seen", "offset", "rising"] as const)(
    "an ink bleeding (%s): lift, blot both faces",
    (how) => {
      const advice = decide(
        state({ inks: [ink({ bleeding: [{ how, order: 5 }] }), ink({ id: "blue" })] }),
      );
      expect(advice).toMatchObject({ verdict: "lift", sheetNow: "blot-both-faces" });
      expect(advice.mustDo.join(" ")).toMatch(
        /No further water of any kind, rinse included, until red tests fast/,
      );
      expect(advice.reasons.map(({ code }) => code)).not.toContain("surfactant-left-in");
    },
  );

  test("a bleeding blotter after baths is a lift too, and surfactant left in is said", () => {
    const advice = decide(
      state({
        baths: [bath({ surfactant: true })],
        inks: [ink({ tests: [{ ...fast({ ...MILD, surfactant: true }), result: "bleeds" }] })],
      }),
    );
    expect(advice.verdict).toBe("lift");
    expect(advice.reasons.map(({ text }) => text).join(" ")).toMatch(/Surfactant left in/);
  });

  test("a fast test in that liquid after the bleed lifts the ban; an earlier, weaker or doubtful one doesn't", () => {
    const bled = (tests: readonly BlotTest[]) =>
      verdict({ inks: [ink({ tests, bleeding: [{ how: "seen", order: 5 }] })] });
    expect(bled([fast(MILD, 6)])).toBe("continue");
    expect(bled([fast(MILD, 4)])).toBe("lift");
    expect(bled([fast({ ...MILD, ph: 7 }, 6)])).toBe("lift");
    expect(bled([{ ...fast(MILD, 6), result: "doubtful" }])).toBe("lift");
    expect(bled([fast(MILD, 6), { ...fast(MILD, 7), result: "bleeds" }])).toBe("lift");
  });

  test("surfactant in the last bath: one plain rinse first, whatever the risk", () => {
    const soapy = { ...MILD, surfactant: true };
    const inks = [ink({ tests: [fast(soapy)] })];
    for (const fade of [forecast(), forecast({ medianDeltaE00: 9 }), null])
      expect(
        decide(state({ baths: [bath(soapy)], inks: inks.map((one) => ({ ...one, fade })) })),
      ).toMatchObject({ verdict: "rinse-first", sheetNow: "in-rinse" });
    expect(verdict({ baths: [bath(soapy), bath({ kind: "rinse" })], inks })).toBe("continue");
    expect(verdict({ baths: [bath({ surfactant: null })], inks })).toBe("rinse-first");
  });

  test("an ink untested or no usable last bath: not decidable, drained on the support", () => {
    expect(decide(state({ inks: [ink(), ink({ id: "blue", tests: [] })] }))).toMatchObject({
      verdict: "not-decidable",
      sheetNow: "drain-on-support",
    });
    expect(verdict({ baths: [bath(), bath({ usable: false })] })).toBe("not-decidable");
    expect(verdict({ inks: [] })).toBe("not-decidable");
    expect(verdict({ inks: [ink({ contradicted: true })] })).toBe("not-decidable");
  });

  test("risk over the limit stops, and the worst ink is named first", () => {
    const advice = decide(
      state({
        inks: [
          ink({ fade: forecast({ medianDeltaE00: 1.6 }) }),
          ink({ id: "blue", fade: forecast({ medianDeltaE00: 2.4 }) }),
        ],
      }),
    );
    expect(advice).toMatchObject({ verdict: "stop", sheetNow: "drain-on-support" });
    expect(advice.reasons.slice(0, 2).map(({ text }) => text.match(/red|blue/)?.[0])).toEqual([
      "blue",
      "red",
    ]);
    expect(advice.reasons[0].value).toBe(advice.riskOfExceeding.blue);
    expect(advice.reasons[0].limit).toBe(0.1);
  });

  test("too little to win stops", () => {
    const advice = decide(state({ gain: { next: 0.005, soFar: 0.09, noise: 0.0008 } }));
    expect(advice.verdict).toBe("stop");
    expect(advice.reasons[0]).toMatchObject({ code: "gain-below-least", limit: 0.1 });
    expect(verdict({ gain: { next: 0.0005, soFar: 0.001, noise: 0.0008 } })).toBe("stop");
    expect(verdict({ gain: null })).toBe("stop");
  });

  test("a fade that can't be predicted is no reason to go on", () => {
    expect(verdict({ inks: [ink({ fade: null })] })).toBe("stop");
  });

  test("after one bath it says how little one bath tells", () => {
    expect(decide(state({ baths: [bath()] })).wouldChangeIt.join(" ")).toMatch(
      /One bath gives no trend/,
    );
  });

  test("what the bath can't show is said with any verdict", () => {
    const hiddenLoss = "blue may hold iron blue: the bath can't show this loss.";
    const advice = decide(state({ inks: [ink({ id: "blue", hiddenLoss })] }));
    expect(advice.reasons.at(-1)).toMatchObject({ code: "loss-not-shown" });
  });
});

describe("before the first bath, from the blotters alone", () => {
  const before = (tests: readonly BlotTest[], next: Liquid | null = null) =>
    decide(state({ baths: [], gain: null, next, inks: [ink({ tests })] }));

  test("fast, but on no scan: nothing bounds what its hidden stain would cost", () => {
    const unseen = state({ baths: [], gain: null, inks: [ink({ fade: null })] });
    expect(decide(unseen)).toMatchObject({ verdict: "not-decidable", sheetNow: "not-in-water" });
    expect(decide(unseen).reasons[0]).toMatchObject({ code: "fade-not-predicted", ink: "red" });
  });

  test("fast: a bath may begin; the sheet stays dry while the user reads on", () => {
    expect(before([fast()])).toMatchObject({ verdict: "continue", sheetNow: "not-in-water" });
    expect(before([fast()], MILD).verdict).toBe("continue");
  });

  test("untested, doubtful, or tested in something weaker than the bath in mind: not decidable, dry", () => {
    for (const advice of [
      before([]),
      before([{ ...fast(), result: "doubtful" }]),
      before([fast()], { ...MILD, ph: 9 }),
    ])
      expect(advice).toMatchObject({ verdict: "not-decidable", sheetNow: "not-in-water" });
  });
});

describe("a test serves only baths no stronger than it", () => {
  test.each([
    ["as strong", {}, "continue"],
    ["0.3 more alkaline", { ph: 8.3 }, "continue"],
    ["0.4 more alkaline", { ph: 8.4 }, "not-decidable"],
    ["2 degrees warmer", { temperatureC: 32 }, "continue"],
    ["3 degrees warmer", { temperatureC: 33 }, "not-decidable"],
    ["a minute longer", { minutes: 6 }, "not-decidable"],
    ["a bath of unknown pH", { ph: null }, "not-decidable"],
    ["a bath of unknown warmth", { temperatureC: null }, "not-decidable"],
    ["a bath of unknown length", { minutes: null }, "not-decidable"],
  ] as const)("%s", (_, change, expected) => {
    expect(verdict({ baths: [bath(), bath(change)] })).toBe(expected);
  });

  test("a condition the test doesn't state can't cover a bath that states it; one made in the bath itself does", () => {
    for (const gap of [{ ph: null }, { temperatureC: null }, { minutes: null }])
      expect(verdict({ inks: [ink({ tests: [fast({ ...MILD, ...gap })] })] })).toBe(
        "not-decidable",
      );
    expect(verdict({ inks: [ink({ tests: [fast(null)] })] })).toBe("continue");
  });

  test("surfactant only if tested so", () => {
    const next = { ...MILD, surfactant: true };
    expect(verdict({ next })).toBe("not-decidable");
    expect(verdict({ next, inks: [ink({ tests: [fast(next)] })] })).toBe("continue");
    const unstated = { ...MILD, surfactant: null };
    expect(verdict({ next, inks: [ink({ tests: [fast(unstated)] })] })).toBe("not-decidable");
  });

  test("a newer test in a weaker liquid doesn't undo an older one that covers, a bleeding one does", () => {
    const weak = { ...MILD, ph: 7 };
    expect(verdict({ inks: [ink({ tests: [fast(MILD, 1), fast(weak, 2)] })] })).toBe("continue");
    const bled: BlotTest = { result: "bleeds", liquid: weak, order: 2 };
    expect(verdict({ inks: [ink({ tests: [fast(MILD, 1), bled] })] })).toBe("lift");
  });
});

describe("laws, over random treatments (seed 2026)", () => {
  const runs = { seed: 2026, numRuns: 400 };
  const nullable = <T>(values: fc.Arbitrary<T>) => fc.option(values, { nil: null });
  const liquids = fc.record({
    surfactant: nullable(fc.boolean()),
    ph: nullable(fc.integer({ min: 14, max: 24 }).map((x) => x / 2)),
    temperatureC: nullable(fc.integer({ min: 15, max: 45 })),
    minutes: nullable(fc.integer({ min: 1, max: 30 })),
  });
  const amounts = (max: number) => fc.double({ min: 0, max, noNaN: true });
  const fades = fc.record({
    medianDeltaE00: amounts(6),
    benchLogSd: amounts(1),
    shareLogSd: amounts(1),
    nextShare: amounts(1),
    nextLogSd: fc.constantFrom(0.42, 0.65),
  });
  const tests = fc.array(
    fc.record({
      result: fc.constantFrom(
        "bleeds" as const,
        "doubtful" as const,
        "fast" as const,
        "fast" as const,
      ),
      liquid: nullable(liquids),
      order: fc.integer({ min: 0, max: 9 }),
    }),
    { maxLength: 3 },
  );
  const inks = fc
    .array(
      fc.record({
        tests,
        bleeding: fc.oneof(
          { weight: 4, arbitrary: fc.constant([]) },
          {
            weight: 1,
            arbitrary: fc.tuple(
              fc.record({
                how: fc.constantFrom("seen" as const, "offset" as const, "rising" as const),
                order: fc.integer({ min: 0, max: 9 }),
              }),
            ),
          },
        ),
        contradicted: fc.boolean(),
        fade: nullable(fades),
        hiddenLoss: fc.constant(null),
      }),
      { minLength: 1, maxLength: 3 },
    )
    .map((list) => list.map((one, i) => ({ ...one, id: `ink-${i}` })));
  const baths = fc.array(
    fc
      .tuple(liquids, fc.constantFrom("wash" as const, "rinse" as const), fc.boolean())
      .map(([liquid, kind, usable]) => ({ ...liquid, kind, usable, volumeMl: 500, event: null })),
    { maxLength: 3 },
  );
  const treatments: fc.Arbitrary<TreatmentState> = fc.record({
    inks,
    baths,
    next: nullable(liquids),
    limits: fc.record({
      maxDeltaE00: fc.constantFrom(1, 2, 4),
      risk: amounts(1),
      minGain: amounts(1),
    }),
    gain: nullable(
      fc.record({ next: amounts(0.1), soFar: amounts(0.3), noise: fc.constant(0.0008) }),
    ),
  });
  /** Decidable ones: every ink fast in the very liquid, plain baths that were read. */
  const decidable: fc.Arbitrary<TreatmentState> = treatments.map((one) => ({
    ...one,
    next: null,
    inks: one.inks.map((each) => ({
      ...each,
      tests: [fast(null)],
      bleeding: [],
      contradicted: false,
      fade: each.fade ?? forecast(),
    })),
    baths: [bath(), ...one.baths.map((each) => ({ ...each, surfactant: false, usable: true }))],
  }));

  test("more fade, less gain or a wider error never turns stop into continue", () => {
    let stops = 0;
    let goes = 0;
    fc.assert(
      fc.property(decidable, amounts(1), amounts(1), amounts(1), (before, fade, gain, error) => {
        const worse: TreatmentState = {
          ...before,
          gain: before.gain && { ...before.gain, next: before.gain.next * (1 - gain) },
          inks: before.inks.map((one) => ({
            ...one,
            fade: one.fade && {
              ...one.fade,
              medianDeltaE00: one.fade.medianDeltaE00 * (1 + fade),
              benchLogSd: one.fade.benchLogSd + error,
              shareLogSd: one.fade.shareLogSd + error,
              nextLogSd: one.fade.nextLogSd + error,
            },
          })),
        };
        const [was, is] = [decide(before).verdict, decide(worse).verdict];
        if (was === "stop") stops++;
        else goes++;
        expect([was, is]).not.toEqual(["stop", "continue"]);
      }),
      { ...runs, numRuns: 2000 },
    );
    // The law is only worth something if both verdicts occur.
    expect(stops).toBeGreaterThan(100);
    expect(goes).toBeGreaterThan(100);
  });

  test("a bleeding ink never gives continue or rinse-first, whatever else is true", () => {
    fc.assert(
      fc.property(treatments, (one) => {
        const [first, ...rest] = one.inks;
        const bleeding = { ...first, bleeding: [{ how: "seen" as const, order: 10 }] };
        const { verdict: said } = decide({ ...one, inks: [bleeding, ...rest] });
        expect(said).toBe(one.baths.length === 0 ? "do-not-immerse" : "lift");
      }),
      runs,
    );
  });

  test("an ink without a blotter result never gives continue or stop", () => {
    fc.assert(
      fc.property(treatments, (one) => {
        const untested = { ...one.inks[0], tests: [], bleeding: [], id: "other" };
        const { verdict: said } = decide({ ...one, inks: [...one.inks, untested] });
        expect(["continue", "stop"]).not.toContain(said);
      }),
      runs,
    );
  });

  test("surfactant in the last bath is followed by a rinse or a lift, never by continue or stop", () => {
    fc.assert(
      fc.property(treatments, (one) => {
        const { verdict: said } = decide({
          ...one,
          baths: [...one.baths, bath({ surfactant: true })],
        });
        expect(["rinse-first", "lift"]).toContain(said);
      }),
      runs,
    );
  });

  test("every advice has a reason, something to do and something that would change it", () => {
    fc.assert(
      fc.property(treatments, (one) => {
        const advice = decide(one);
        expect(advice.reasons.length).toBeGreaterThan(0);
        expect(advice.mustDo.length).toBeGreaterThan(0);
        expect(advice.wouldChangeIt.length).toBeGreaterThan(0);
        for (const { text } of advice.reasons) expect(text).not.toMatch(/NaN|undefined|null/);
      }),
      runs,
    );
  });
});
