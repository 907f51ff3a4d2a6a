import { describe, expect, test, vi } from "vitest";
import type { Advice } from "../../src/advice/advice.ts";
import type { Assessment } from "../../src/advice/assessBaths.ts";
import { LastrinseError } from "../../src/errors.ts";
import { seededRandom } from "../../src/numeric/random.ts";
import { assessTreatment } from "../../src/record/assessTreatment.ts";
import { type DrawnRecord, drawRecord } from "../support/drawRecord.ts";
import { heldRecord } from "../support/heldRecord.ts";
import { type Removal, removalsOf } from "../support/removals.ts";

// Unmixing and forecast are pure and asked the same again for most removals: their answers are remembered, never replaced.
vi.mock(import("../../src/bath/inkShareOf.ts"), async (original) => {
  const { remembered } = await import("../support/remembered.ts");
  const real = await original();
  return { ...real, inkShareOf: remembered(real.inkShareOf) };
});
vi.mock(import("../../src/bath/nextBath.ts"), async (original) => {
  const { remembered } = await import("../support/remembered.ts");
  const real = await original();
  return { ...real, nextBath: remembered(real.nextBath) };
});
vi.mock(import("../../src/bath/predictFade.ts"), async (original) => {
  const { remembered } = await import("../support/remembered.ts");
  const real = await original();
  return { ...real, fadeModel: remembered(real.fadeModel) };
});

const TREATMENTS = 300;
/** Kinds of removal that `removalsOf` knows; every one has to occur. */
const KINDS = 25;
const LEAST_CONTINUE = 0.25;
const SEED = 20_260_504;

const drawn = (k: number): DrawnRecord => drawRecord(seededRandom(SEED + k));

/** Figures are recomputed from the same numbers: they may differ by rounding only. */
const ROUNDING = 1e-9;

/** Settings that bear on no figure: one of them is taken away from each treatment, in turn. */
const INERT = /(object|liquid|site|composition|phOut|agitation|foam|note|step photo)$/;

function drawnRemovals(treatment: DrawnRecord, k: number): readonly Removal[] {
  const all = removalsOf(treatment);
  const inert = all.filter(({ kind }) => INERT.test(kind));
  const one = inert.at(k % Math.max(1, inert.length));
  return all.filter((removal) => removal === one || !INERT.test(removal.kind));
}

/**
 * Without one face's scan the question is another one: other areas, and a loss laid to the other face alone. Then only the verdict is compared,
 * if the face that stays is the front; without the front nothing is predicted.
 */
const ANOTHER_QUESTION = "before scan";

/** What a removal did to the advice that it may never do; empty where it did nothing of the kind. */
function betterNews(kind: string, before: Assessment, after: Assessment): readonly string[] {
  const findings: string[] = [];
  const [was, now]: readonly Advice[] = [before.advice, after.advice];
  if (was.verdict !== "continue" && now.verdict === "continue")
    findings.push(`${was.verdict} became continue`);
  if (kind === ANOTHER_QUESTION) return findings;
  for (const [ink, risk] of Object.entries(was.riskOfExceeding)) {
    const less = now.riskOfExceeding[ink] ?? null;
    if (less === null) continue;
    if (risk === null) {
      // Of an ink whose loss the bath can't show, the visible part is told where it alone is too much: that is worse news, not better.
      const worse = was.notShown.includes(ink) && less > was.limits.risk;
      if (!worse) findings.push(`the unknown risk of ${ink} became ${String(less)}`);
    }
    if (risk !== null && less < risk - ROUNDING)
      findings.push(`the risk of ${ink} fell from ${String(risk)} to ${String(less)}`);
  }
  for (const [ink, fade] of Object.entries(before.fade)) {
    const less = after.fade[ink] ?? null;
    if (less === null) continue;
    if (fade === null) findings.push(`the unknown fade of ${ink} became ${String(less.high)}`);
    else if (less.high < fade.high - ROUNDING)
      findings.push(
        `the most that ${ink} may have faded fell from ${String(fade.high)} to ${String(less.high)}`,
      );
  }
  return findings;
}

/** Some ten thousand assessments: the usual limit would end them on a busy machine. */
const LONG_MS = 900_000;

describe("a record that knows less never advises more", () => {
  test(
    "300 treatments, each without any one condition, photo or test",
    { timeout: LONG_MS },
    async () => {
      const verdicts = new Map<string, number>();
      const findings: string[] = [];
      const kinds = new Set<string>();
      let removed = 0;
      for (let k = 0; k < TREATMENTS; k++) {
        const treatment = drawn(k);
        const whole = await assessTreatment(heldRecord(treatment.events, treatment.kept)).catch(
          (error: unknown) => {
            findings.push(`treatment ${String(k)} as it is: ${String(error)}`);
            return null;
          },
        );
        if (whole === null) continue;
        const { assessment } = whole;
        const { verdict } = assessment.advice;
        verdicts.set(verdict, (verdicts.get(verdict) ?? 0) + 1);
        for (const { what, kind, events } of drawnRemovals(treatment, k)) {
          removed++;
          kinds.add(kind);
          try {
            const less = await assessTreatment(heldRecord(events, treatment.kept));
            for (const finding of betterNews(kind, assessment, less.assessment))
              findings.push(`treatment ${String(k)}, ${what}: ${finding}`);
          } catch (error) {
            // A refusal is an answer; anything else would end the command with status 1.
            if (!(error instanceof LastrinseError))
              findings.push(`treatment ${String(k)}, ${what}: ${String(error)}`);
          }
        }
      }
      expect(findings).toEqual([]);
      // The test would mean little if hardly anything could turn worse.
      expect([...verdicts.keys()].sort()).toEqual([
        "continue",
        "do-not-immerse",
        "lift",
        "not-decidable",
        "rinse-first",
        "stop",
      ]);
      expect(verdicts.get("continue")).toBeGreaterThanOrEqual(LEAST_CONTINUE * TREATMENTS);
      // opened 1, before 1, step 1, blot 6 settings, test, photo and word, bath 10 settings and 3 photos (surfactant among the settings).
      expect(kinds.size).toBe(KINDS);
      expect(removed).toBeGreaterThan(10 * TREATMENTS);
    },
  );
});
