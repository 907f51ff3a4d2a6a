import { describe, expect, test } from "vitest";
import { MOST_LINES, trayText } from "../../cli/trayText.ts";
import { DEFAULT_LIMITS } from "../../calibration/priors.ts";
import { decide } from "../../src/advice/decide.ts";
import type { InkState, TreatmentState } from "../../src/advice/treatmentState.ts";

const LIQUID = { surfactant: false, ph: 8, temperatureC: 30, minutes: 5 };
const ink = (id: string, medianDeltaE00: number, change: Partial<InkState> = {}): InkState => ({
  id,
  tests: [{ result: "fast", liquid: LIQUID, order: 0 }],
  bleeding: [],
  contradicted: false,
  fade: { medianDeltaE00, benchLogSd: 0.6, shareLogSd: 0.2, nextShare: 0.3, nextLogSd: 0.42 },
  hiddenLoss: null,
  ...change,
});
const bath = {
  kind: "rinse" as const,
  usable: true,
  volumeMl: 500,
  event: "000007",
  ...LIQUID,
};
const state = (change: Partial<TreatmentState> = {}): TreatmentState => ({
  inks: [ink("red", 0.5), ink("blue", 0.1, { hiddenLoss: "blue may be iron blue." })],
  baths: [bath, bath],
  next: null,
  limits: DEFAULT_LIMITS,
  gain: { next: 0.02, soFar: 0.09, noise: 0.0008 },
  ...change,
});
const many = (count: number, change: Partial<InkState>) =>
  Array.from({ length: count }, (_, i) => ink(`ink-${String(i)}`, 3, change));
const linesOf = (change: Partial<TreatmentState>) =>
  trayText(decide(state(change)), {
    before: ["Recorded as event 000008. Repeated from the last bath, not confirmed: minutes."],
    notes: 3,
    more: "lastrinse advise brine-bell --full",
  }).split("\n");

const bleeding = [{ how: "seen" as const, order: 5 }];
const CASES: readonly (readonly [string, Partial<TreatmentState>])[] = [
  ["continue", {}],
  ["stop by risk", { inks: many(9, {}) }],
  ["stop by gain", { gain: { next: 0.001, soFar: 0.09, noise: 0.0008 } }],
  ["rinse first, a volume missing", { baths: [{ ...bath, surfactant: true, volumeMl: null }] }],
  ["not decidable, nine inks untested", { inks: many(9, { tests: [] }) }],
  ["nine inks bleeding", { inks: many(9, { bleeding }) }],
  ["do not immerse", { baths: [], inks: many(9, { bleeding }) }],
  ["a damaged event", { damagedEvents: ["000009.json"] }],
  ["finished", { finished: true }],
];

describe("at the tray", () => {
  test.each(CASES)(
    "%s: at most twelve lines, the order first, and where the rest is",
    (_, change) => {
      const lines = linesOf(change);
      const advice = decide(state(change));
      expect(lines.length).toBeLessThanOrEqual(MOST_LINES);
      expect(lines[1]).toBe(`The sheet now: ${advice.sheetText}`);
      expect(lines[2]).toBe(`Advice: ${advice.headline}`);
      // What to do next is never cut away.
      expect(lines.join("\n")).toContain(`Do: ${advice.mustDo[0]}`);
      expect(lines.at(-1)).toContain("3 notes too: lastrinse advise brine-bell --full");
    },
  );

  test("the ink that decides, its upper bound first", () => {
    const text = linesOf({ inks: [ink("red", 0.5), ink("blue", 3)] }).join("\n");
    expect(text).toMatch(/Decides: blue: up to \d+\.\d dE00 with one more bath; your limit is 2\./);
    expect(text).not.toContain("Decides: red");
  });

  test("an ink of which nothing can be predicted decides before one with a small figure", () => {
    const text = linesOf({ inks: [ink("red", 0.1), ink("blue", 0, { fade: null })] }).join("\n");
    expect(text).toContain("Decides: blue: its fade can't be predicted");
  });

  test.each(["lift", "do not immerse"])("no figure decides: %s", (verdict) => {
    const change = { inks: [ink("red", 0.1), ink("blue", 0.1, { bleeding })] };
    const text = linesOf(verdict === "lift" ? change : { ...change, baths: [] }).join("\n");
    expect(text).not.toContain("Decides");
  });

  test("an ink whose loss may be hidden has no small risk anywhere", () => {
    const inks = [ink("blue", 0.01, { hiddenLoss: "may be iron blue." })];
    const { reasons, riskOfExceeding } = decide(state({ inks }));
    const told = reasons.find(({ code }) => code === "risk-within-limit");
    expect(told?.value).toBeNull();
    expect(told?.text).toContain("Risk of passing it: not measurable from the bath");
    expect(riskOfExceeding.blue).toBeNull();
  });

  test("what the bath can't show is named, never as 0 %", () => {
    const text = linesOf({ inks: [ink("blue", 0.01, { hiddenLoss: "may be iron blue." })] }).join(
      "\n",
    );
    expect(text).toContain("Risk of passing it: not measurable from the bath");
    expect(text).toContain("Not measurable from the bath: blue");
    expect(text).not.toMatch(/\b0 %/);
  });

  test("a missing volume is told with the line that adds it", () => {
    expect(linesOf({ baths: [{ ...bath, volumeMl: null }] }).join("\n")).toContain(
      "lastrinse amend RECORD 000007 --set volumeMl=ML",
    );
  });

  test("once finished, nothing is said of one more bath", () => {
    expect(linesOf({ finished: true }).join("\n")).not.toContain("one more bath");
  });
});
