import type { Advice, Reason } from "./advice.ts";
import { endingOf } from "./endingOf.ts";
import { type Findings, type JudgedInk, reason, sentence } from "./findings/findings.ts";
import { comforts, type InkRisk, riskText } from "./findings/riskText.ts";
import { volumeUnknown } from "./findings/volumeUnknown.ts";
import { whatIsMissing } from "./findings/whatIsMissing.ts";
import { whenBleeding, whenBleedingBefore } from "./findings/whenBleeding.ts";
import { whenContinue } from "./findings/whenContinue.ts";
import { whenDamaged } from "./findings/whenDamaged.ts";
import { whenFinished } from "./findings/whenFinished.ts";
import { whenStop } from "./findings/whenStop.ts";
import { whenSurfactantLast } from "./findings/whenSurfactantLast.ts";
import { gainReason } from "./gainReason.ts";
import { inkStatus } from "./inkStatus.ts";
import { LARGEST_RISK } from "./largestRisk.ts";
import { riskOfExceeding } from "./riskOfExceeding.ts";
import {
  type BathState,
  type InkState,
  isPlain,
  type Liquid,
  type TreatmentState,
} from "./treatmentState.ts";
import { upperFade } from "./upperFade.ts";

/**
 * Stop or continue before the next bath, with reasons. Order of the verdicts: finished (scanned dry) · do not immerse (no bath yet, an ink
 * bleeds in the blotter test) · lift (an ink is bleeding) · not decidable, where the record has a hole · rinse first (the last bath
 * was not plain) · not decidable (an ink untested, no usable bath, a volume missing) · continue or stop by risk and gain.
 * Before the first bath fast blotters alone allow it; a doubtful one doesn't. More fade, less gain or a wider error never
 * turn stop into continue, and nothing that is unknown permits anything.
 */
export function decide(state: TreatmentState): Advice {
  const last = state.baths.at(-1) ?? null;
  const liquid = state.next ?? last;
  const inks = state.inks.map((ink) => ({ ink, status: inkStatus(ink, liquid) }));
  return withFigures(state, findingsOf(state, inks, last, liquid));
}

function findingsOf(
  state: TreatmentState,
  inks: readonly JudgedInk[],
  last: BathState | null,
  liquid: Liquid | null,
): Findings {
  const damaged = state.damagedEvents ?? [];
  const bleeding = inks.filter(({ status }) => status.state === "bleeding");
  if (state.finished === true && damaged.length === 0) return whenFinished(bleeding, last);
  if (bleeding.length > 0)
    return last === null && damaged.length === 0
      ? whenBleedingBefore(bleeding)
      : whenBleeding(bleeding, last);
  if (damaged.length > 0) return whenDamaged(damaged, last);
  if (last !== null && owesRinse(last, state)) return whenSurfactantLast(last);
  return whatIsMissing(state, inks, last) ?? byRiskAndGain(state, liquid);
}

/** What nobody stated counts as surfactant, a plain rinse costs little; but not where nothing at all is known of the treatment. */
function owesRinse(last: BathState, { inks }: TreatmentState): boolean {
  const nothingKnown = last.surfactant === null && last.event === null && inks.length === 0;
  return !isPlain(last) && !nothingKnown;
}

function byRiskAndGain(state: TreatmentState, liquid: Liquid | null): Findings {
  const { limits, baths } = state;
  const allowed = Math.min(limits.risk, LARGEST_RISK);
  const risks = risksOf(state);
  const of = (code: string, one: InkRisk): Reason =>
    reason(code, riskText(one, limits), {
      ink: one.id,
      value: comforts(one, allowed) ? null : one.risk,
      limit: allowed,
    });
  const gain = gainReason(state);
  const silent = state.inks.filter(({ id }) => !risks.some((one) => one.id === id));
  const against = [
    ...risks.filter(({ risk }) => risk > allowed).map((one) => of("risk-above-limit", one)),
    // Without a forecast for an ink there is nothing to weigh.
    ...silent.map((ink) => reason("fade-not-predicted", silentText(ink, baths), { ink: ink.id })),
    ...(gain.against ? [gain.reason] : []),
  ];
  if (against.length > 0) return whenStop(state, against, endingOf(state, against));
  return whenContinue(state, liquid, [
    ...(baths.length > 0
      ? []
      : [
          reason(
            "blotters-fast",
            "Every ink was fast in its blotter test. No bath has been read yet.",
          ),
        ]),
    ...risks.slice(0, 1).map((one) => of("risk-within-limit", one)),
    ...(gain.reason === null ? [] : [gain.reason]),
  ]);
}

/** Inks whose risk is a figure, the worst first. */
function risksOf({ inks, limits }: TreatmentState): readonly InkRisk[] {
  return inks
    .flatMap(({ id, fade, hiddenLoss }): readonly InkRisk[] => {
      const risk = riskOfExceeding(fade, limits.maxDeltaE00);
      const upperDeltaE00 = upperFade(fade);
      return risk === null || upperDeltaE00 === null
        ? []
        : [{ id, risk, upperDeltaE00, hidden: hiddenLoss !== null }];
    })
    .sort((a, b) => b.risk - a.risk || b.upperDeltaE00 - a.upperDeltaE00);
}

function silentText({ id, whyNoFade }: InkState, baths: readonly BathState[]): string {
  const unread = baths.flatMap(({ usable }, i) => (usable ? [] : [String(i + 1)]));
  if (unread.length === 0)
    return `What the baths took of ${id} can't be predicted${whyNoFade ? `: ${whyNoFade}` : ""}.`;
  return `What the baths took of ${id} can't be predicted: bath ${unread.join(", ")} has no photo that can be trusted.`;
}

/** An advice with its figures, and with what is said whatever the verdict. */
function withFigures(state: TreatmentState, findings: Findings): Advice {
  const { inks, limits } = state;
  const risks = new Map(risksOf(state).map((one) => [one.id, one]));
  const allowed = Math.min(limits.risk, LARGEST_RISK);
  const volume = volumeUnknown(state.baths);
  const told = findings.reasons.some(({ code }) => code === "volume-unknown");
  return {
    ...findings,
    reasons: [
      ...findings.reasons,
      ...(volume === null || told || state.finished === true ? [] : [volume]),
      ...inks.flatMap(({ id, hiddenLoss }) =>
        hiddenLoss === null ? [] : [reason("loss-not-shown", sentence(hiddenLoss), { ink: id })],
      ),
    ],
    limits,
    riskOfExceeding: Object.fromEntries(
      inks.map(({ id }) => {
        const one = risks.get(id);
        return [id, one === undefined || comforts(one, allowed) ? null : one.risk];
      }),
    ),
    upperDeltaE00: Object.fromEntries(
      inks.map(({ id }) => [id, risks.get(id)?.upperDeltaE00 ?? null]),
    ),
    notShown: inks.flatMap(({ id, hiddenLoss }) => (hiddenLoss === null ? [] : [id])),
  };
}
