import { describe, expect, test } from "vitest";
import { type AssessInput, assessBaths } from "../../src/advice/assessBaths.ts";
import { blotFor } from "../../src/advice/blotFor.ts";
import { coversLiquid } from "../../src/advice/coversLiquid.ts";
import { decide } from "../../src/advice/decide.ts";
import { inkStatus } from "../../src/advice/inkStatus.ts";
import { riskOfExceeding } from "../../src/advice/riskOfExceeding.ts";
import type { BlotTest, Liquid } from "../../src/advice/treatmentState.ts";
import type { Evidence, EvidenceBath } from "../../src/bath/evidence.ts";
import type { WarningCode } from "../../src/errors.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { seededRandom } from "../../src/numeric/random.ts";
import { drawBench, readJar } from "../support/drawJar.ts";

const PLAIN: EvidenceBath = {
  kind: "rinse",
  surfactant: false,
  minutes: 5,
  temperatureC: 30,
  ph: 8,
  volumeMl: 500,
  settled: false,
};
const LAB: Triple = [59.84, 45.33, 33.97];
const LIQUID: Liquid = { surfactant: true, ph: 8, temperatureC: 30, minutes: 5 };
const FAST: BlotTest = { result: "fast", liquid: LIQUID, order: -1 };

const photos = (() => {
  const random = seededRandom(61);
  const bench = drawBench(random);
  return [0.06, 0.035].map((soil) => readJar(random, { soil, inks: {} }, bench).reading);
})();

/** The last photo with a warning on it. */
const warned = (code: string) => ({
  ...photos[1],
  warnings: [{ code: code as WarningCode, message: "" }],
});

interface Case {
  readonly first?: Partial<EvidenceBath>;
  readonly last?: Partial<EvidenceBath>;
  readonly test?: Partial<Liquid>;
  readonly rest?: Partial<AssessInput>;
}

/** A treatment in which all is known and another bath is permitted, with some of it taken away. */
function assess({ first = {}, last = {}, test = {}, rest = {} }: Case = {}) {
  const baths = [
    { ...PLAIN, ...first },
    { ...PLAIN, ...last },
  ];
  const evidence: Evidence = {
    bathVolumeMl: baths.find(({ volumeMl }) => volumeMl !== null)?.volumeMl ?? null,
    wetSheetMl: 16,
    paperLab: [78, 3, 19],
    inks: [{ id: "red", lab: LAB, areaCm2: 90, blot: "fast", stainedAreaCm2: null }],
    baths,
    unprintedStrip: null,
    limits: { maxDeltaE00: 2, risk: 0.1, minGain: 0.1 },
  };
  return assessBaths({
    evidence,
    photos,
    tests: new Map([["red", [{ ...FAST, liquid: { ...LIQUID, ...test } }]]]),
    ...rest,
  });
}
const EVENTS = { bathEvents: ["000006", "000007"] };

test("with everything stated another bath is permitted, with a finite risk", () => {
  const { advice } = assess();
  expect(advice.verdict).toBe("continue");
  expect(advice.riskOfExceeding.red).toBeGreaterThan(0);
  expect(advice.riskOfExceeding.red).toBeLessThan(0.1);
});

const AMEND_7 = "lastrinse amend RECORD 000007 --set";
const UNKNOWN: readonly (readonly [string, Case, string, string | RegExp])[] = [
  [
    "volume of the last bath",
    { last: { volumeMl: null }, rest: EVENTS },
    "not-decidable",
    `The volume of bath 2 is not stated, so what left the sheet can't be weighed: no fade, no risk. Add it: ${AMEND_7} volumeMl=ML`,
  ],
  [
    "both volumes",
    { first: { volumeMl: null }, last: { volumeMl: null }, rest: EVENTS },
    "not-decidable",
    /The volume of baths 1 and 2 .*000006 --set volumeMl=ML; .*000007 --set volumeMl=ML/,
  ],
  [
    "a volume from the jar alone",
    { last: { volumeMl: null } },
    "not-decidable",
    /Add it: "volumeMl" of bath 2 in the evidence file/,
  ],
  [
    "surfactant of the last bath",
    { last: { surfactant: null }, rest: EVENTS },
    "rinse-first",
    /not stated whether the last bath held surfactant; it is treated as if it did/,
  ],
  [
    "surfactant of the first bath, a plain rinse after it",
    { first: { kind: "wash", surfactant: null } },
    "continue",
    /red: up to/,
  ],
  [
    "pH of the last bath",
    { last: { ph: null }, rest: EVENTS },
    "not-decidable",
    "Red counts as untested: the bath doesn't state its pH, so no test can be said to cover it.",
  ],
  [
    "temperature of the last bath",
    { last: { temperatureC: null } },
    "not-decidable",
    /the bath doesn't state its temperature/,
  ],
  ["time of the last bath", { last: { minutes: null } }, "not-decidable", /doesn't state its time/],
  ["pH of the test", { test: { ph: null } }, "not-decidable", /test doesn't state its pH/],
  [
    "pH of both",
    { test: { ph: null }, last: { ph: null } },
    "not-decidable",
    /neither its test nor the bath states the pH/,
  ],
  [
    "the last photo",
    { rest: { photos: [photos[0], null] } },
    "not-decidable",
    /The last bath has no photo/,
  ],
  [
    "the first photo",
    { rest: { photos: [null, photos[1]] } },
    "stop",
    /What the baths took of red can't be predicted: bath 1 has no photo/,
  ],
  ...["saturated", "above-range", "order-swapped"].map(
    (code) =>
      [
        `the last photo, for it has the warning ${code}`,
        { rest: { photos: [photos[0], warned(code)] } },
        "not-decidable",
        /The last bath has no photo that can be trusted/,
      ] as const,
  ),
  [
    "a warning that leaves the amount as it is",
    { rest: { photos: [photos[0], warned("below-range")] } },
    "continue",
    /red: up to/,
  ],
  [
    "the result of the newest blotter test",
    { rest: { tests: new Map([["red", [FAST, { ...FAST, result: "untested", order: 5 }]]]) } },
    "not-decidable",
    "Red counts as untested: its last blotter test gave no result.",
  ],
  [
    "a note of the bench",
    { rest: { unreadableNotes: ["a.bench.json"] } },
    "not-decidable",
    /a\.bench\.json of this bench can't be read/,
  ],
  [
    "a bath that holds what left the sheet",
    { rest: { massBalance: false } },
    "stop",
    /What the baths took of red can't be predicted/,
  ],
];

describe("unknown permits nothing, and the reason says what is missing", () => {
  test.each(UNKNOWN)("%s", (_, change, verdict, text) => {
    const { advice, fade } = assess(change);
    expect(advice.verdict).toBe(verdict);
    const said = advice.reasons.map((reason) => reason.text);
    if (typeof text === "string") expect(said).toContain(text);
    else expect(said.join("\n")).toMatch(text);
    if (verdict === "stop") expect(advice.riskOfExceeding.red).toBeNull();
    expect(JSON.stringify({ advice, fade })).not.toMatch(/NaN|Infinity/);
  });

  test("what would settle it is a line to paste", () => {
    const settles = assess({ last: { ph: null }, rest: EVENTS }).advice.wouldChangeIt;
    expect(settles[0]).toBe(`State what the last bath was like: ${AMEND_7} phIn=PH`);
    const jar = assess({ last: { ph: null } }).advice.wouldChangeIt;
    expect(jar[0]).toBe('State what the last bath was like: "ph" of bath 2 in the evidence file');
  });

  test("no volume: no mass balance, no fade, no forecast; a bath without soil to weigh it by is not called clean", () => {
    const { fade, nextBath, advice, baths } = assess({ last: { volumeMl: null } });
    expect(fade.red).toBeNull();
    expect(nextBath).toBeNull();
    expect(advice.riskOfExceeding).toEqual({ red: null });
    // The photo itself still says what it says.
    expect(baths[1].inkShare).not.toBeNull();
  });

  test("a missing volume is told beside a rinse that is owed, too", () => {
    const { advice } = assess({ last: { volumeMl: null, surfactant: true }, rest: EVENTS });
    expect(advice.verdict).toBe("rinse-first");
    expect(advice.reasons.map(({ code }) => code)).toEqual(["surfactant-last", "volume-unknown"]);
  });
});

describe("what was stated counts without a photo and without evidence", () => {
  const alone = (conditions: readonly EvidenceBath[], bathEvents: readonly string[]) =>
    assessBaths({
      evidence: null,
      photos: conditions.map(() => null),
      conditions,
      bathEvents,
    }).advice;
  const soapy: EvidenceBath = { ...PLAIN, kind: "wash", surfactant: true };

  test("a plain rinse without photo ends the call for a rinse", () => {
    expect(alone([soapy], ["000002"]).verdict).toBe("rinse-first");
    expect(alone([soapy, PLAIN], ["000002", "000003"]).verdict).toBe("not-decidable");
  });

  test("a wash of which nobody said whether it held surfactant counts as holding some", () => {
    const unstated: EvidenceBath = { ...soapy, surfactant: null };
    const advice = alone([unstated], ["000002"]);
    expect(advice.verdict).toBe("rinse-first");
    expect(advice.reasons[0].text).toContain("amend RECORD 000002 --set surfactant=false");
    expect(alone([unstated, PLAIN], ["000002", "000003"]).verdict).not.toBe("rinse-first");
  });

  test("conditions of another number of baths than photos are a programmer's error", () => {
    expect(() => assessBaths({ evidence: null, photos: [null], conditions: [] })).not.toThrow();
    expect(() =>
      assessBaths({ evidence: null, photos: [null], conditions: [PLAIN, PLAIN] }),
    ).toThrow(RangeError);
  });
});

describe("a test serves a liquid only where both are stated", () => {
  const bath = { ...LIQUID };
  test.each([
    ["both stated, as strong", {}, {}, null],
    [
      "plain bath, test unstated: nothing is weaker",
      { surfactant: null },
      { surfactant: false },
      null,
    ],
    ["surfactant of the bath unstated, tested with it", {}, { surfactant: null }, null],
    [
      "surfactant of the bath unstated, tested without",
      { surfactant: false },
      { surfactant: null },
      /nobody stated whether the bath holds surfactant/,
    ],
    ["pH of the bath unstated", {}, { ph: null }, /bath doesn't state its pH/],
    ["pH of the test unstated", { ph: null }, {}, /test doesn't state its pH/],
    ["time of both unstated", { minutes: null }, { minutes: null }, /neither/],
  ] as const)("%s", (_, test, change, expected) => {
    const why = coversLiquid({ ...LIQUID, ...test }, { ...bath, ...change });
    if (expected === null) expect(why).toBeNull();
    else expect(why).toMatch(expected);
  });
});

describe("what a blotter test says of one bath", () => {
  test.each([
    ["made before it, as strong", [FAST], LIQUID, 0, "fast"],
    ["made after it", [{ ...FAST, order: 3 }], LIQUID, 0, "untested"],
    ["in a weaker liquid", [FAST], { ...LIQUID, ph: 9 }, 0, "untested"],
    ["the bath unstated", [FAST], { ...LIQUID, ph: null }, 0, "untested"],
    ["bled later", [FAST, { ...FAST, result: "bleeds", order: 3 }], LIQUID, 0, "bleeds"],
    ["bled before", [{ ...FAST, result: "bleeds" }], LIQUID, 0, "bleeds"],
    ["none", [], LIQUID, 0, "untested"],
  ] as const)("%s", (_, tests, liquid, order, expected) => {
    expect(blotFor(tests, liquid, order)).toBe(expected);
  });
});

describe("a fade that is no number is never a small risk", () => {
  const known = { benchLogSd: 0.6, shareLogSd: 0, nextShare: 0, nextLogSd: 0 };
  test.each([
    ["no forecast", null, 2],
    ["fade NaN", { ...known, medianDeltaE00: NaN }, 2],
    ["fade below nothing", { ...known, medianDeltaE00: -1 }, 2],
    ["error NaN", { ...known, medianDeltaE00: 1, benchLogSd: NaN }, 2],
    ["error without end", { ...known, medianDeltaE00: 1, benchLogSd: Infinity }, 2],
    ["no limit", { ...known, medianDeltaE00: 1 }, NaN],
  ])("%s: null", (_, fade, limit) => {
    expect(riskOfExceeding(fade, limit)).toBeNull();
  });
});

describe("a newest test without a result", () => {
  const none: BlotTest = { result: "untested", liquid: LIQUID, order: 5 };

  test("leaves an older bleed in force, and gives way to a newer result", () => {
    const statusOf = (tests: readonly BlotTest[]) =>
      inkStatus({ tests, bleeding: [], contradicted: false }, LIQUID).state;
    expect(statusOf([{ ...FAST, result: "bleeds" }, none])).toBe("bleeding");
    expect(statusOf([{ ...FAST, result: "doubtful" }, none])).toBe("untested");
    expect(statusOf([none, { ...FAST, order: 6 }])).toBe("fast");
  });
});

describe("limits told with a go-ahead", () => {
  const told = (tests: ReadonlyMap<string, readonly BlotTest[]>) => {
    const inks = [...tests].map(([id, own]) => ({
      id,
      tests: own,
      bleeding: [],
      contradicted: false,
      fade: { medianDeltaE00: 0.1, benchLogSd: 0.6, shareLogSd: 0.2, nextShare: 0, nextLogSd: 0.4 },
      hiddenLoss: null,
    }));
    const limits = { maxDeltaE00: 2, risk: 0.1, minGain: 0.1 };
    const { verdict, mustDo } = decide({ inks, baths: [], next: null, limits, gain: null });
    expect(verdict).toBe("continue");
    return mustDo[0];
  };
  const fast = (liquid: Partial<Liquid>, order = 0): BlotTest => ({
    result: "fast",
    liquid: { ...LIQUID, ...liquid },
    order,
  });

  test("come from the test of each ink that permits it, not from others", () => {
    const bled: BlotTest = { ...fast({ ph: 7, minutes: 1 }), result: "bleeds" };
    expect(told(new Map([["red", [bled, fast({ ph: 8.5 }, 1)]]]))).toContain(
      "at most pH 8.8, 32 °C, 5 minutes",
    );
  });

  test.each<[Partial<Liquid>, string]>([
    [{ surfactant: null }, "whether its liquid held surfactant"],
    [{ ph: null, minutes: null }, "its pH and its time"],
    [{ temperatureC: null }, "its temperature"],
  ])("a test that doesn't state %o permits no first bath", (liquid, what) => {
    const status = inkStatus({ tests: [fast(liquid)], bleeding: [], contradicted: false }, null);
    expect(status.state).toBe("untested");
    expect(status.why).toContain(`its test doesn't state ${what}`);
  });

  test("surfactant only where every test held some", () => {
    const held = fast({ surfactant: true });
    const none = fast({ surfactant: false });
    expect(told(new Map([["red", [held]]]))).toContain("no more surfactant than in the tests");
    for (const other of [none])
      expect(told(new Map([["red", [held]], ["blue", [other]]]))).toContain("and no surfactant."); // prettier-ignore
  });
});
