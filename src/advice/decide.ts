import { listOf } from "../bath/shareText.ts";
import type { Advice, Reason, SheetNow, Verdict } from "./advice.ts";
import { PH_MARGIN, TEMPERATURE_MARGIN_C } from "./coversLiquid.ts";
import { type InkStatus, inkStatus } from "./inkStatus.ts";
import { riskOfExceeding } from "./riskOfExceeding.ts";
import type { BathState, InkState, Liquid, TreatmentState } from "./treatmentState.ts";

/**
 * A limit on the risk above one half would make a wider error look safer than a narrow one: it counts as one half.
 */
const LARGEST_RISK = 0.5;

/**
 * Stop or continue before the next bath, with reasons. Order of the verdicts: do not immerse (no bath yet, an ink bleeds in the blotter
 * test) · lift (an ink is bleeding) · rinse first (the last bath held surfactant) · not decidable (an ink untested, no usable
 * bath) · continue or stop by risk and gain. Before the first bath fast blotters alone allow it; a doubtful one doesn't.
 * More fade, less gain or a wider error never turn stop into continue.
 */
export function decide(state: TreatmentState): Advice {
  const last = state.baths.at(-1) ?? null;
  const liquid = state.next ?? last;
  const inks = state.inks.map((ink) => ({ ink, status: inkStatus(ink, liquid) }));
  const riskOf = new Map(
    state.inks.map(({ id, fade }) => [
      id,
      fade === null ? null : riskOfExceeding(fade, state.limits.maxDeltaE00),
    ]),
  );
  const give = (verdict: Verdict, sheetNow: SheetNow, rest: Findings): Advice => ({
    verdict,
    sheetNow,
    reasons: [...rest.reasons, ...hiddenLossReasons(state.inks)],
    limits: state.limits,
    riskOfExceeding: Object.fromEntries(riskOf),
    mustDo: rest.mustDo,
    wouldChangeIt: rest.wouldChangeIt,
  });

  const bleeding = inks.filter(({ status }) => status.state === "bleeding");
  if (bleeding.length > 0)
    return last === null
      ? give("do-not-immerse", "not-in-water", whenBleedingBefore(bleeding))
      : give("lift", "blot-both-faces", whenBleeding(bleeding, last));
  // Surfactant not stated counts as surfactant, a plain rinse costs little; but not where nothing at all is known.
  if (last !== null && (last.surfactant ?? inks.length > 0))
    return give("rinse-first", "in-rinse", whenSurfactantLast(last));
  const open = whatIsMissing(state, inks, last);
  if (open.reasons.length > 0)
    return give("not-decidable", last === null ? "not-in-water" : "drain-on-support", open);
  return byRiskAndGain(state, riskOf, liquid, give);
}

interface Findings {
  readonly reasons: readonly Reason[];
  readonly mustDo: readonly string[];
  readonly wouldChangeIt: readonly string[];
}

interface JudgedInk {
  readonly ink: InkState;
  readonly status: InkStatus;
}

const reason = (
  code: string,
  text: string,
  value: number | null = null,
  limit: number | null = null,
): Reason => ({ code, text, value, limit });

const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

function whenBleedingBefore(bleeding: readonly JudgedInk[]): Findings {
  const names = listOf(bleeding.map(({ ink }) => ink.id));
  return {
    reasons: bleeding.map(({ ink, status }) =>
      reason("ink-bleeds", sentence(`${ink.id} bleeds: ${status.why}.`)),
    ),
    mustDo: [
      "Keep the sheet out of the water.",
      "Ask a conservator before any other wet treatment.",
    ],
    wouldChangeIt: [
      `A fast blotter of ${names} in a milder liquid (no surfactant, nearer pH 7.5, cooler, shorter). It would then hold for that liquid only.`,
    ],
  };
}

function whenBleeding(bleeding: readonly JudgedInk[], last: BathState): Findings {
  const names = listOf(bleeding.map(({ ink }) => ink.id));
  const reasons = bleeding.map(({ ink, status }) =>
    reason("ink-bleeding", sentence(`${ink.id} is bleeding: ${status.why}.`)),
  );
  if (last.surfactant !== false)
    reasons.push(
      reason(
        "surfactant-left-in",
        "Surfactant left in: the last bath held some and it is not rinsed out. That is the lesser harm now; note it in the record.",
      ),
    );
  return {
    reasons,
    mustDo: [
      "Lift the sheet out on its support now; don't tilt it across the image.",
      "Blot both faces with fresh dry blotters; cool moving air.",
      `No further water of any kind, rinse included, until ${names} tests fast in that liquid.`,
      "Note time and place, and photograph the area.",
    ],
    wouldChangeIt: [
      `A later blotter test of ${names}, fast, in a liquid at least as strong as the one to be used.`,
    ],
  };
}

function whenSurfactantLast(last: BathState): Findings {
  const held =
    last.surfactant === null
      ? "It is not stated whether the last bath held surfactant; it is treated as if it did."
      : "The last bath held surfactant. What stays in the paper attracts dirt and loosens ink later.";
  return {
    reasons: [reason("surfactant-last", held)],
    mustDo: [
      "One plain bath without surfactant, no warmer and no more alkaline than the last; better two.",
      "Shake 20 mL of the rinse in a closed bottle: a foam ring after one minute means not rinsed yet.",
      "Photograph the rinse in the jar beside a blank, then ask again.",
    ],
    wouldChangeIt: ["A plain rinse. If an ink bleeds meanwhile: lift at once."],
  };
}

function whatIsMissing(
  state: TreatmentState,
  inks: readonly JudgedInk[],
  last: BathState | null,
): Findings {
  const reasons: Reason[] = [];
  const wouldChangeIt: string[] = [];
  if (inks.length === 0) {
    reasons.push(
      reason("no-ink-named", "No ink of the cover is named yet, so none can be judged."),
    );
    wouldChangeIt.push("A before scan or a blotter test of each ink.");
  }
  for (const { ink, status } of inks)
    if (status.state === "untested") {
      reasons.push(
        reason("ink-untested", sentence(`${ink.id} counts as untested: ${status.why}.`)),
      );
      wouldChangeIt.push(
        `A blotter test of ${ink.id} in a liquid at least as strong as the bath, as warm and as long.`,
      );
    }
  if (last === null)
    for (const { ink, status } of inks)
      if (status.state === "doubtful") {
        reasons.push(
          reason(
            "ink-doubtful",
            sentence(
              `the blotter of ${ink.id} was doubtful: nothing bounds what a first bath would take.`,
            ),
          ),
        );
        wouldChangeIt.push(
          `A longer blotter test of ${ink.id} that stays clean; or, at your own risk, a first bath of two minutes and its jar photo.`,
        );
      }
  if (last !== null && !last.usable) {
    reasons.push(
      reason(
        "no-usable-bath",
        state.baths.some(({ usable }) => usable)
          ? "The last bath has no photo that can be trusted, so what it took is not known."
          : "No bath has a photo that can be trusted, so what came out is not known.",
      ),
    );
    wouldChangeIt.push(
      "A fresh jar photo of the last bath beside its blank. Too dark for the jar: thin one part with three parts of blank and say so.",
    );
  }
  const mustDo =
    reasons.length === 0
      ? []
      : last === null
        ? ["Keep the sheet dry until this is settled."]
        : ["Lift the sheet out on its support and let it drain while you decide."];
  return { reasons, mustDo, wouldChangeIt };
}

function byRiskAndGain(
  state: TreatmentState,
  riskOf: ReadonlyMap<string, number | null>,
  liquid: Liquid | null,
  give: (verdict: Verdict, sheetNow: SheetNow, rest: Findings) => Advice,
): Advice {
  const { limits, gain, baths } = state;
  const allowed = Math.min(limits.risk, LARGEST_RISK);
  const byRisk = [...riskOf]
    .flatMap(([id, risk]) => (risk === null ? [] : [{ id, risk }]))
    .sort((a, b) => b.risk - a.risk);
  const against: Reason[] = byRisk
    .filter(({ risk }) => risk > allowed)
    .map(({ id, risk }) =>
      reason(
        "risk-above-limit",
        `With one more bath ${id} would exceed ${limits.maxDeltaE00} dE00 with a probability of ${percent(risk)} (accepted: ${percent(allowed)}).`,
        risk,
        allowed,
      ),
    );
  // Without a forecast for an ink that came through a bath there is nothing to weigh.
  const silent = baths.length === 0 ? [] : state.inks.filter(({ fade }) => fade === null);
  against.push(
    ...silent.map(({ id }) =>
      reason("fade-not-predicted", `What the baths took of ${id} can't be predicted.`),
    ),
  );
  if (gain !== null) {
    const least = Math.max(limits.minGain * gain.soFar, gain.noise);
    if (!(gain.next >= least))
      against.push(
        reason(
          "gain-below-least",
          gain.soFar > 0
            ? `Another bath would bring about ${percent(gain.next / gain.soFar)} of the soil removed so far (least wanted: ${percent(Math.max(limits.minGain, gain.noise / gain.soFar))}).`
            : "No soil has come out that could be measured.",
          gain.soFar > 0 ? gain.next / gain.soFar : 0,
          limits.minGain,
        ),
      );
  } else if (baths.length > 0)
    against.push(reason("gain-not-known", "What another bath would win is not known."));

  const oneBath = baths.length === 1 ? [ONE_BATH] : [];
  const worst = byRisk.at(0);
  if (against.length > 0)
    return give("stop", "drain-on-support", {
      reasons: against,
      mustDo: [
        byRisk.some(({ risk }) => risk > allowed)
          ? "Stop cleaning, and no further bath: the last one was plain, so no rinse is owed."
          : "Stop cleaning. If the last bath was plain water, end on one mildly alkaline bath without surfactant, of the tested strength, so that a reserve stays.",
        "Drain on the support, then dry flat between blotters.",
        "When fully dry: scan again with the same strip in the frame. Only that shows what happened.",
      ],
      wouldChangeIt: [
        ...oneBath,
        ...(worst !== undefined && worst.risk > allowed
          ? [
              `A narrower reading of ${worst.id} (blotter tests of the other inks, a bath of unprinted paper), or finished treatments of this bench.`,
            ]
          : []),
        ...(against.some(({ code }) => code === "gain-below-least")
          ? ["A smaller least gain, if the remaining soil matters that much to you."]
          : []),
        "Your own limits: they are yours to set before the next bath, not after it.",
      ],
    });
  const forIt: Reason[] = byRisk
    .slice(0, 1)
    .map(({ id, risk }) =>
      reason(
        "risk-within-limit",
        `The worst ink is ${id}: with one more bath it would exceed ${limits.maxDeltaE00} dE00 with a probability of ${percent(risk)} (accepted: ${percent(allowed)}).`,
        risk,
        allowed,
      ),
    );
  if (gain !== null && gain.soFar > 0)
    forIt.push(
      reason(
        "gain-enough",
        `Another bath would bring about ${percent(gain.next / gain.soFar)} of the soil removed so far.`,
        gain.next / gain.soFar,
        limits.minGain,
      ),
    );
  if (baths.length === 0)
    forIt.unshift(
      reason("blotters-fast", "Every ink was fast in its blotter test. No bath has been read yet."),
    );
  return give("continue", baths.length === 0 ? "not-in-water" : "in-bath", {
    reasons: forIt,
    mustDo: [
      sameLiquid(liquid, state.inks),
      "Photograph the spent bath beside a blank of the same age, then ask again.",
      "If colour shows at an ink's edge or on the support: lift at once.",
    ],
    wouldChangeIt: [
      ...oneBath,
      "Colour of an ink in the next jar, or a stronger liquid than the one tested.",
    ],
  });
}

const ONE_BATH =
  "One bath gives no trend; the range for the next is ninefold. A second short bath (2 minutes) or a blotter test tells more than another full one.";

const percent = (share: number): string =>
  share > 0 && share < 0.01 ? "under 1 %" : `${Math.round(100 * share)} %`;

/** The strongest liquid for which every ink has a test, said as limits for the next bath. */
function sameLiquid(liquid: Liquid | null, inks: readonly InkState[]): string {
  const tested = inks.flatMap(({ tests }) => tests.flatMap((test) => test.liquid ?? []));
  const least = (values: readonly (number | null)[]) => {
    const known = values.flatMap((value) => value ?? []);
    return known.length === 0 ? null : Math.min(...known);
  };
  const ph = least(tested.map((test) => test.ph));
  const temperatureC = least(tested.map((test) => test.temperatureC));
  const minutes = least(tested.map((test) => test.minutes));
  const limits = [
    ...(ph === null ? [] : [`at most pH ${(ph + PH_MARGIN).toFixed(1)}`]),
    ...(temperatureC === null ? [] : [`${temperatureC + TEMPERATURE_MARGIN_C} °C`]),
    ...(minutes === null ? [] : [`${minutes} minutes`]),
  ];
  const what = liquid === null ? "the liquid that was tested" : "the same liquid as the last bath";
  return limits.length === 0
    ? `Use ${what}: no more alkaline, no warmer, no longer, and no surfactant that was not in the test.`
    : `Use ${what}: ${limits.join(", ")}, and no surfactant that was not in the test.`;
}

function hiddenLossReasons(inks: readonly InkState[]): readonly Reason[] {
  return inks.flatMap(({ hiddenLoss }) =>
    hiddenLoss === null ? [] : [reason("loss-not-shown", sentence(hiddenLoss))],
  );
}
